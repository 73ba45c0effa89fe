/** What a form made of a schema knows of the build: the names behind keys, the currency, today, what is wrong. */
import type { FormContext, Holder, Option, Refers } from '../controls/form-model.ts';
import { nameOfPurchase } from '../drawing/purchase-name.ts';
import { dayOf } from '../drawing/words.ts';
import type { Build } from '../state/build.svelte.ts';
import type { Draft } from '../state/draft.svelte.ts';

export function formContext<T extends object>(build: Build, draft: Draft<T>): FormContext {
  const root = draft.value as unknown as Holder;
  const currency =
    typeof root['currency'] === 'string' && root['currency'].length === 3
      ? root['currency']
      : build.file.build.currency;
  return {
    options: (of, holder) => optionsOf(build, root, of, holder),
    currency: isCurrency(currency) ? currency : build.file.build.currency,
    units: build.file.build.units,
    now: { day: dayOf(build.plan.asOf), instant: build.plan.asOf },
    fault: (path) => draft.fault(...path),
  };
}

function isCurrency(text: string): boolean {
  return /^[A-Z]{3}$/.test(text);
}

function optionsOf(build: Build, root: Holder, of: Refers, holder: Holder): readonly Option[] {
  switch (of) {
    case 'own lines':
      return (root['lines'] as readonly Option[]).map(({ key, name }) => ({
        key,
        name: name === '' ? key : name,
      }));
    case 'own options':
      return (root['options'] as readonly string[]).map((name) => ({ key: name, name }));
    case 'depths of the zone': {
      const zone = build.by.zones.get(String(holder['zone'] ?? ''));
      return build.file.depths.filter(({ key }) => zone === undefined || zone.depths.includes(key));
    }
    case 'zones':
      return build.file.zones.map(({ key, name }) => ({ key, name: `${key} ${name}` }));
    case 'purchases':
      return build.file.purchases.map((purchase) => ({ key: purchase.key, name: nameOfPurchase(purchase) }));
    default:
      return build.file[of].map((one) => named(one as unknown as Holder));
  }
}

function named(one: Holder): Option {
  const key = String(one['key'] ?? '');
  return { key, name: String(one['name'] ?? one['question'] ?? key) };
}
