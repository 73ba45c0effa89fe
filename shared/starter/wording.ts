/**
 * Names of tasks and checks that speak of what this van has. The catalogue's own names are those of one van with
 * everything; a name stands here where some answer would make it untrue.
 */
import type { CatalogueTask } from './catalogue.ts';
import type { Facts } from './facts.ts';

type Check = NonNullable<CatalogueTask['check']>;

const SITES = {
  outdoors:
    'Set up the place outdoors: tarpaulin over the door, lamps, heater in the van, swarf sheets, extinguisher; name walls and ribs, print record sheets',
  barn: 'Set up the bay: lamps, dehumidifier, heater, swarf sheets, extinguisher; name walls and ribs, print record sheets',
  heated: 'Set up the workshop: lamps, swarf sheets, extinguisher; name walls and ribs, print record sheets',
} as const;

export function namesFor(f: Facts): Readonly<Record<string, string>> {
  const has = (there: boolean, words: string) => (there ? words : '');
  const gasBoiler = f.hotWater === 'gas';
  return {
    'use-brief': 'Write the use brief: who sleeps where, the coldest nights, what rides along',
    'water-heat-design': `${sentence(
      list(has(f.water, 'water and waste'), has(f.heated, 'warm-air'), has(f.gas, 'gas')),
    )} scheme; what must stay on the warm side`,
    consent: `Ask the approval office and insurer what needs consent (${list(
      'bulkhead',
      has(f.seats !== 'cab', 'swivel'),
      has(f.seats === 'belted', 'belted seats'),
      has(f.suspension !== 'as-is', 'springs'),
      has(f.heated, 'heater'),
      has(f.gas, 'gas'),
      has(f.mainsAboard, '230 V'),
      'class change',
    )}); arrange self-build cover`,
    workshop: SITES[f.workshop],
    strip:
      f.inside === 'converted'
        ? 'Take up the floor and what is left of linings and lashing rings (keep as templates)'
        : 'Remove cargo linings, cargo floor, lashing rings (keep as templates)',
    'bulkhead-out':
      f.inside === 'converted' ? 'Remove what is left of the bulkhead' : 'Remove the full bulkhead',
    'side-inlets': `Side inlets: ${list(
      'fridge vents left',
      has(f.inlet, 'shore socket left'),
      has(f.water, 'water filler right'),
    )}`,
    'floor-holes': `Floor openings: ${list(
      has(f.heated, 'heater spigots'),
      has(f.wasteWater !== 'none', 'drains'),
      has(f.freshWater === 'below', 'riser'),
      has(f.gas, 'drop vent of the gas locker'),
      'drop vents',
      'cable glands',
    )}; look below before each hole`,
    'solar-rails': f.rack
      ? 'Fit the solar mounting rails to the roof rack'
      : 'Mark and bond the solar mounting rails (bonded and bolted at the gutter)',
    'solar-panels':
      f.solar === 'one'
        ? 'Mount the panel, drip loop, tails through the gland; read open-circuit voltage'
        : 'Mount panels, drip loops, tails through the gland; read open-circuit voltage',
    'rear-carrier': 'Rear-door carrier points, plates behind',
    'anchor-plates': `Through-bolted plates: ${list(
      'bed feet',
      'battery locker',
      has(f.water || f.wasteWater !== 'none', 'tank straps'),
      has(f.gas, 'gas locker'),
      has(f.bed === 'fixed', 'crate rack'),
      'locker backing',
    )}`,
    'pull-ceiling': `12 V ceiling circuits: ${list('lighting', has(f.fan, 'fan'))}`,
    'pull-left': `12 V left circuits: ${list('fridge', has(f.water, 'pump'), 'outlets', 'control panel')}`,
    'pull-right': `12 V right circuits: ${list(
      has(f.heated, 'heater'),
      'locker fan',
      'reading lamps',
      has(f.wasteWater === 'below', 'waste-tank heat pad'),
      has(f.freshWater === 'below', 'fresh-tank heat pad'),
    )}`,
    'pull-solar-sensor': `${sentence(
      list(
        has(f.panels, 'solar'),
        has(f.water, 'tank probes'),
        'temperature',
        has(f.lights !== 'none', 'camera'),
        has(f.lights !== 'none', 'aerial'),
      ),
    )} cables`,
    'pull-230': f.inlet
      ? '230 V cables inlet to board to sockets, on their own route'
      : '230 V cables inverter to board to hob, on their own route',
    ducts: `Warm-air ducts at plinth level: ${list('room', 'tall locker', 'bed', has(f.freshWater === 'inside', 'tank bay'))}`,
    'boiler-base': gasBoiler
      ? 'Boiler bracket left front, gas and water tails, flue joined'
      : 'Boiler bracket left front, coolant and water tails',
    'boiler-fill': gasBoiler
      ? 'Boiler connected and filled, first flame, warm-up'
      : 'Boiler connected, coolant filled and bled, warm-up',
    drains: 'Sink and locker drains to the waste tank, fall 2 % or more',
    hoses: `${f.warmWater ? 'Hot and cold hoses' : 'Hoses'} in a skirting duct on the warm side, low-point drain`,
    'crate-rack': 'Crate rack under the bed with lashing rails',
    fill:
      f.insulation === 'wool'
        ? 'Wool packed into panels and ribs around the conduits, held by netting'
        : 'Rib and cavity fill around conduits',
    'vapour-check': f.fan
      ? 'Fan on exhaust from a bench supply, feel for leaks, re-tape; photo'
      : 'Household fan in the door, feel for leaks, re-tape; photo',
    'bench-seat': `Left front bench with ${list(
      has(f.warmWater, 'boiler bay'),
      has(f.toilet === 'yes', 'toilet bay'),
      'table post',
    )}`,
    'dry-locker': `Tall locker behind the sliding door${has(f.heated, ' with heater bay')}: ${list(
      'waterproof lining',
      'drip tray',
      has(f.heated, 'warm-air inlet'),
      'vent',
    )}`,
    'over-right': 'Overhead locker right and rear shelf',
    worktop: `Worktop: ${list('cut', has(f.cooking !== 'none', 'hob opening'), has(f.water, 'sink opening'))}, three coats of oil`,
    'load-test': `Load and pull test of ${list('lockers', 'bed', has(f.bed === 'fixed', 'rack'))}`,
    chargers: f.panels ? 'DC-DC charger and solar regulator' : 'DC-DC charger',
    'inverter-230': f.inlet
      ? 'Inverter-charger, 230 V board, 30 mA RCD, sockets, inlet'
      : 'Inverter, 230 V board, 30 mA RCD',
    alarms: `${list('Smoke alarm', 'CO alarm', has(f.gas, 'gas alarm'), 'extinguisher', 'fire blanket')}`,
    trims: `Cover strips, surrounds of ${list(
      has(f.sideWindows, 'windows'),
      has(f.fan, 'fan'),
      has(f.roofLight, 'roof light'),
      has(f.coolingUnit, 'cooling unit'),
      'doors',
    )}`,
    'window-mats': `Insulated mats for ${f.sideWindows ? 'all windows' : 'the cab windows'} and cab curtain`,
    shakedown: 'Shake-down: two cold nights and 300 km',
  };
}

/** The check of a task where the catalogue's speaks of what this van has not. */
export function checksFor(f: Facts): Readonly<Record<string, Partial<Check>>> {
  const has = (there: boolean, words: string) => (there ? words : '');
  const drains = f.wasteWater !== 'none';
  const tested = list(
    has(f.water, 'water'),
    has(f.hotWater === 'engine', 'coolant'),
    has(f.heated, 'heater'),
    has(f.gas, 'gas'),
  );
  const beforeFurniture: Partial<Check> =
    tested === ''
      ? { kind: 'photo', name: 'photo of the walls behind it filed' }
      : { name: `${tested} ${tested.includes(' and ') ? 'tests' : 'test'} passed, photo set 6 filed` };
  return {
    'floor-insul': { name: 'photo of floor plates and holes' },
    'subfloor-fit':
      f.hotWater === 'engine' || drains
        ? { name: `${list(has(f.hotWater === 'engine', 'coolant'), has(drains, 'drain'))} test passed` }
        : { kind: 'photo', name: 'photo set 3 filed' },
    'under-wax': {
      name: `photo set 4; ${list(
        has(f.heater === 'diesel', 'fuel'),
        has(f.hotWater === 'engine', 'coolant'),
        'every joint',
      )} dry`,
    },
    'cable-test': f.mainsAboard ? {} : { name: 'test sheet complete; photo set 5' },
    'vapour-check': { name: 'no draught at joints with the fan pulling' },
    'boiler-fill': f.hotWater === 'gas' ? { name: 'no weep after two warm-ups' } : {},
    kitchen: beforeFurniture,
    'bench-seat': beforeFurniture,
  };
}

/** "a, b and c"; empty words are left out. */
export function list(...words: readonly string[]): string {
  const said = words.filter((word) => word !== '');
  const last = said.pop();
  return said.length === 0 ? (last ?? '') : `${said.join(', ')} and ${last}`;
}

function sentence(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
