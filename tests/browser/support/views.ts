/** Every address of a build worth looking at, for the sweeps. */
export const BUILD = 'wagtail';

export const VIEWS = [
  'today',
  'shell',
  'shell/L2',
  'shell/T',
  'sequence',
  'schedule',
  'schedule?task=fill',
  'purchases',
  'money',
  'hours',
  'records',
  'decisions',
  'history',
  'more',
  'settings',
  'settings/people',
  'settings/people/ines',
  'settings/conditions',
  'settings/tools',
  'settings/zones',
  'settings/phases',
  'task/pull-left',
] as const;
