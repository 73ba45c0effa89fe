/** JSON pointers (RFC 6901): how a fault says where it stands. */

export function pointer(...steps: readonly (string | number)[]): string {
  return steps.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

export function pointerSteps(text: string): string[] {
  return text
    .split('/')
    .slice(1)
    .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
}
