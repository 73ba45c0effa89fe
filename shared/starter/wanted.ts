/** Which tasks of the catalogue a van with these answers has. A task that is not named here belongs to every van. */
import type { Facts } from './facts.ts';

type When = (facts: Facts) => boolean;

function each(keys: string, when: When): [string, When][] {
  return keys.split(' ').map((key) => [key, when]);
}

const WHEN: ReadonlyMap<string, When> = new Map([
  ...each('out-furniture out-services out-linings out-holes', ({ inside }) => inside === 'converted'),
  ...each('win-left-cut win-left-fit win-slider', ({ sideWindows }) => sideWindows),
  ...each('win-rear', ({ rearWindows }) => rearWindows),
  ...each('fan-cut fan-fit', ({ fan }) => fan),
  ...each('rooflight', ({ roofLight }) => roofLight),
  ...each('cooling-cut cooling-fit pull-cooling cooling-run', ({ coolingUnit }) => coolingUnit),
  ...each('rack-points rack-mount', ({ rack }) => rack),
  ...each('solar-rails solar-panels', ({ panels }) => panels),
  ...each('roof-gland', ({ gland }) => gland),
  ...each('awning', ({ awning }) => awning === 'yes'),
  ...each('rear-carrier', ({ rearCarrier }) => rearCarrier === 'yes'),
  ...each('camera-lamp', ({ lights }) => lights !== 'none'),
  ...each('work-lights pull-work-lights', ({ workLights }) => workLights),
  ...each('swivel', ({ seats }) => seats !== 'cab'),
  ...each('seat-frame belted-seats', ({ seats }) => seats === 'belted'),
  ...each('helper-springs', ({ suspension }) => suspension === 'helper-springs'),
  ...each('raise', ({ suspension }) => suspension === 'raised'),
  ...each('skin-left skin-right skin-ceiling', ({ insulation }) => insulation === 'sheet'),
  ...each('fill vapour-walls vapour-ceiling vapour-check', ({ insulation }) => insulation !== 'foam'),
  ...each('foam-mask foam-spray foam-trim', ({ insulation }) => insulation === 'foam'),
  ...each('heater-base ducts heat-test heater-second', ({ heated }) => heated),
  ...each('standpipe fuel-line', ({ heater }) => heater === 'diesel'),
  ...each('gas-locker gas-pipe gas-test gas-cert', ({ gas }) => gas),
  ...each('gas-hob', ({ cooking }) => cooking === 'gas'),
  ...each('hob-load', ({ cooking }) => cooking === 'induction'),
  ...each('boiler-base boiler-fill', ({ warmWater }) => warmWater),
  ...each('coolant-run coolant-test', ({ hotWater }) => hotWater === 'engine'),
  ...each('boiler-flue', ({ hotWater }) => hotWater === 'gas'),
  ...each('filler-hose hoses water-test sink-pump leak-test', ({ water }) => water),
  ...each('water-tank', ({ freshWater }) => freshWater === 'inside'),
  ...each('fresh-tank-below fresh-plumb-below', ({ freshWater }) => freshWater === 'below'),
  ...each('drains', ({ wasteWater }) => wasteWater !== 'none'),
  ...each('grey-tank grey-plumb', ({ wasteWater }) => wasteWater === 'below'),
  ...each('waste-inside', ({ wasteWater }) => wasteWater === 'inside'),
  ...each('pull-230 elec-prelook inverter-230 elec-cert', ({ mainsAboard }) => mainsAboard),
  ...each('bed crate-rack', ({ bed }) => bed === 'fixed'),
  ...each('folding-bed', ({ bed }) => bed === 'folding'),
  ...each('toilet', ({ toilet }) => toilet === 'yes'),
  ...each('water-heat-design', ({ water, heated, gas }) => water || heated || gas),
  // A market and its load are the story of one van.
  ...each('market-trial', () => false),
]);

export function isWanted(key: string, facts: Facts): boolean {
  return WHEN.get(key)?.(facts) ?? true;
}
