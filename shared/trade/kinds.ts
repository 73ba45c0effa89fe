/**
 * The kinds of work the trade check knows. A task may be of several, or of none: `other` says that the builder was asked
 * and it is none of these. Meanings and cautions are common practice.
 */
import type { Caution } from '../contract/task.ts';

export interface TradeKind {
  readonly key: string;
  /** As it stands on a screen, in the middle of a sentence. */
  readonly name: string;
  /** What a task of this kind does, one line. */
  readonly meaning: string;
  /** Dangers that come with such work wherever it is done. */
  readonly cautions: readonly Caution[];
}

export interface KindGroup {
  readonly name: string;
  readonly kinds: readonly TradeKind[];
}

/** The builder was asked: none of the kinds. */
export const OTHER = 'other';

function kind(key: string, name: string, meaning: string, ...cautions: Caution[]): TradeKind {
  return { key, name, meaning, cautions };
}

/** In the order of a conversion, as they are offered. */
export const KIND_GROUPS: readonly KindGroup[] = [
  {
    name: 'Plans and papers',
    kinds: [
      kind('plan', 'plan', 'Settle on paper or with tape where things go.'),
      kind('mass-table', 'table of masses', 'Add up what everything weighs, and on which axle.'),
      kind('consent', 'consent', 'Ask the offices and the insurer what needs their consent.'),
      kind('workshop', 'workshop', 'Set up the place to work in.'),
      kind('weigh', 'weighing', 'Weigh the van as it is.', 'road'),
    ],
  },
  {
    name: 'Strip-out and metal',
    kinds: [
      kind('strip-out', 'strip-out', 'Take out what the van came with.', 'sharp-edges'),
      kind(
        'trace-lines',
        'tracing of lines',
        'Find looms, fuel, brake and airbag lines and mark where not to drill.',
      ),
      kind(
        'belt-check',
        'belt check',
        'See that belts run free, and mark the pillars of belts and airbags.',
        'seat-belt',
      ),
      kind('survey', 'survey', 'Map drains, cavities and rust of the bare shell.'),
      kind('clean', 'cleaning', 'Wash, degrease, vacuum before something is stuck on.'),
      kind('photo', 'photos', 'Photograph what will be covered, with a rule in the picture.'),
      kind('rust', 'rust treatment', 'Grind, brush, convert rust.', 'dust'),
      kind('weld', 'welding', 'Weld on the body.', 'hot-work'),
      kind('paint', 'paint', 'Prime or paint metal.', 'solvents'),
    ],
  },
  {
    name: 'Openings and outside',
    kinds: [
      kind(
        'confirm-opening',
        'confirming of openings',
        'Look at the place of an opening from both sides before it is cut.',
      ),
      kind(
        'cut-opening',
        'cutting of an opening',
        'Cut or drill through the skin of the van.',
        'drilling',
        'sharp-edges',
      ),
      kind('seal', 'sealing', 'Bed, bond or seal something into the skin or a seam.'),
      kind('swarf', 'swarf hunt', 'Take out every filing and touch up the cut edges.'),
      kind('leak-test', 'leak test', 'Hose the outside and look for damp inside.'),
      kind('bond', 'bonding', 'Glue rails or brackets to the outside.'),
      kind('solar', 'solar', 'Rails, panels and tails on the roof.', 'height'),
    ],
  },
  {
    name: 'Damping and fixing points',
    kinds: [
      kind('damping', 'damping', 'Stick sound-damping sheet on the skin.'),
      kind('mark', 'marking out', 'Mark points at full size before they are drilled or wired.'),
      kind('fixing-point', 'fixing points', 'Set threaded inserts, plates, through-bolts.', 'drilling'),
      kind('blocking', 'blocking', 'Fit wood or rails to screw lockers to later.'),
      kind('seat', 'seats', 'Seats, swivels and their bolts.', 'seat-belt'),
      kind('pull-test', 'pull test', 'Load every point once before it is covered or used.'),
      kind('cavity-wax', 'cavity wax', 'Wax sills, ribs and doors from inside.', 'solvents'),
    ],
  },
  {
    name: 'Floor and underbody',
    kinds: [
      kind('sub-floor', 'sub-floor', 'Bond and bolt the boards of the floor.'),
      kind('step', 'step', 'The step and the edge at the door.'),
      kind('floor-covering', 'floor covering', 'Lay what one walks on.'),
      kind('tank', 'tank', 'Fit a tank with its straps.'),
      kind('under-wax', 'underbody wax', 'Wax or stone guard under the van.', 'under-vehicle', 'solvents'),
    ],
  },
  {
    name: 'Water, heat and gas',
    kinds: [
      kind('hose', 'hoses', 'Run water, waste, filler or coolant hoses.'),
      kind(
        'pressure-test',
        'pressure test',
        'Hold a circuit under pressure and look at every joint.',
        'pressure',
      ),
      kind('water-test', 'water test', 'Fill the circuit and look for leaks.'),
      kind('sink', 'sink and tap', 'Sink, tap and pump.'),
      kind('boiler', 'boiler', 'Boiler, its bracket and tails.'),
      kind('duct', 'ducts', 'Run warm-air ducts.'),
      kind('fuel', 'fuel line', 'Standpipe, pump and line of a heater.', 'fuel'),
      kind('heater', 'heater', 'Fit a heater.', 'exhaust'),
      kind('exhaust', 'heater exhaust', 'Fit the exhaust of a heater.', 'exhaust'),
      kind('heater-test', 'heater test', 'Run the heater and look for leaks and smoke.', 'exhaust'),
      kind('gas', 'gas', 'Bottle locker, pipes and taps for gas.', 'gas'),
      kind('gas-test', 'gas test', 'Tightness test of the gas pipes by a competent person.', 'gas'),
    ],
  },
  {
    name: 'Electrics, behind the linings',
    kinds: [
      kind('conduit', 'conduits', 'Fix conduits and grommets.'),
      kind('cable', 'cables', 'Pull or clip cables.', 'electricity'),
      kind('mains', 'mains', 'Anything at mains voltage.', 'mains'),
      kind('label', 'labels', 'Label both ends and write the list.'),
      kind(
        'cable-test',
        'cable test',
        'Continuity, polarity, insulation while it can be seen.',
        'electricity',
      ),
      kind('electrician-look', 'look by the electrician', 'The electrician sees the open walls.'),
    ],
  },
  {
    name: 'Insulation and linings',
    kinds: [
      kind('insulation', 'insulation', 'Bond sheet to the skin, lay it, pack it.'),
      kind('foam', 'spray foam', 'Spray or can foam that sets where it lands.', 'solvents'),
      kind('fill', 'rib fill', 'Fill ribs and cavities round the services.'),
      kind('vapour-film', 'vapour film', 'Stretch and tape the vapour-control film.'),
      kind('vapour-check', 'check of the film', 'Feel for draughts at the joints with a fan running.'),
      kind('batten', 'battens', 'Battens and furring.'),
      kind('rail', 'rails', 'Fixing rails on battens or inserts.'),
      kind('bench-cut', 'cutting at the bench', 'Template and cut panels or sheets.', 'dust'),
      kind('bench-finish', 'finishing at the bench', 'Seal, oil or paint panels off the van.', 'solvents'),
      kind('lining', 'lining', 'Put up the panels one sees.'),
      kind('wall-map', 'map of the walls', 'Draw on the closed walls what lies behind.'),
    ],
  },
  {
    name: 'Furniture',
    kinds: [
      kind('furniture', 'furniture', 'Cabinets, lockers, benches.'),
      kind('battery-locker', 'battery locker', 'The locker of the batteries.', 'battery'),
      kind('bed', 'bed', 'The bed frame.'),
      kind('overhead', 'overhead lockers', 'Lockers at the ceiling.', 'lifting'),
      kind('worktop', 'worktop', 'Worktop with its openings.'),
      kind('fronts', 'doors and drawers', 'Doors, drawers and their locks.'),
    ],
  },
  {
    name: 'Second fix and tests',
    kinds: [
      kind('battery', 'batteries', 'Place and strap batteries.', 'battery', 'lifting'),
      kind('main-fuse', 'main fuse', 'Main fuse, isolator, busbars.', 'battery'),
      kind('fuse-board', 'fuse board', 'Fuse board and its circuits.', 'electricity'),
      kind('charger', 'chargers', 'Chargers and solar regulator.', 'electricity'),
      kind('dead-test', 'dead tests', 'Tests of the wiring before it is live.', 'electricity'),
      kind(
        'first-power',
        'first power',
        'Switch on for the first time, one circuit after another.',
        'electricity',
      ),
      kind('live-test', 'live tests', 'Tests with the power on.', 'mains'),
      kind('certificate', 'certificate', 'The paper of the licensed electrician.'),
      kind('lamps', 'lamps and outlets', 'Lamps, switches, outlets.', 'electricity'),
      kind('appliance', 'appliance', 'Fridge, hob and the like.'),
      kind('alarms', 'alarms', 'Smoke and carbon monoxide alarms, extinguisher.'),
      kind('soak-test', 'trial stay', 'Live in it for two days in the yard.'),
    ],
  },
  {
    name: 'Trim and the road',
    kinds: [
      kind('trim', 'trim', 'Cover strips and surrounds.'),
      kind('soft', 'soft goods', 'Mattress, cushions, mats, curtains.'),
      kind('travel-locks', 'travel locks', 'Locks for the road, rattles.'),
      kind('weigh-loaded', 'weighing, loaded', 'Weigh each axle with everything aboard.', 'road'),
      kind('papers', 'papers of the van', 'The folder that stays with the van.'),
      kind('inspection', 'inspection', 'The office or test centre looks at the van.', 'road'),
      kind('registration', 'registration', 'Change of papers and insurance.'),
      kind('shakedown', 'shake-down', 'First nights and kilometres.', 'road'),
      kind('defects', 'list of defects', 'Work off what the first trips showed.'),
      kind('re-torque', 're-torque', 'Go over every bolt again after some kilometres.'),
    ],
  },
  {
    name: 'None of these',
    kinds: [kind(OTHER, 'none of these', 'Looked at: the trade check has nothing to say on it.')],
  },
];

export const KINDS: readonly TradeKind[] = KIND_GROUPS.flatMap(({ kinds }) => kinds);

const byKey = new Map(KINDS.map((one) => [one.key, one]));

/** Null for a kind of the builder's own, which no rule speaks of. */
export function kindOf(key: string): TradeKind | null {
  return byKey.get(key) ?? null;
}

/** The words of a kind, also of one that is not in the list: `ice-box` is "ice box". */
export function kindName(key: string): string {
  return byKey.get(key)?.name ?? key.replaceAll('-', ' ');
}
