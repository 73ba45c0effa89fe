/**
 * The starter's questions in plain words, in the order they are asked. A question has one field or a few that belong
 * together; a field has its choices, and a question may be out of place after other answers.
 */
import type { Week } from '../contract/calendar.ts';
import type { Static } from 'typebox';
import type { Answers, ChoiceField, CHOICES, ClimateName } from './answers.ts';

export interface Choice {
  readonly value: string;
  /** A few words to choose by. */
  readonly words: string;
  /** What it means for the work, in one sentence; empty where the words say it all. */
  readonly help: string;
}

export interface Field {
  readonly key: ChoiceField;
  /** Only where a question has several fields. */
  readonly label: string;
  readonly choices: readonly Choice[];
  /** False where an earlier answer leaves nothing to ask: then the first choice counts. */
  readonly asked: (answers: Answers) => boolean;
}

export interface Question {
  readonly key: string;
  readonly ask: string;
  readonly help: string;
  readonly fields: readonly Field[];
}

type Words<F extends ChoiceField> = Readonly<
  Record<(typeof CHOICES)[F][number], readonly [words: string, help?: string]>
>;

const NO_YES = { no: ['no'], yes: ['yes'] } as const;

function field<F extends ChoiceField>(
  key: F,
  label: string,
  words: Words<F>,
  asked: Field['asked'] = () => true,
): Field {
  const choices = Object.entries<readonly [string, string?]>(words).map(([value, [own, help = '']]) => ({
    value,
    words: own,
    help,
  }));
  return { key, label, choices, asked };
}

const hasWater = ({ freshWater }: Answers) => freshWater !== 'none';

export const QUESTIONS: readonly Question[] = [
  {
    key: 'van',
    ask: 'How big is the van?',
    help: 'Hours, materials and the limits on the plate follow from it. The limits are invented: put in those of your own plate.',
    fields: [
      field('van', '', {
        short: ['short wheelbase', 'Two bays: seats or bench in front, bed behind.'],
        medium: ['medium wheelbase', 'Three bays, high roof.'],
        long: ['long wheelbase', 'Four bays, high roof.'],
      }),
    ],
  },
  {
    key: 'inside',
    ask: 'What is inside it now?',
    help: 'What somebody built before you comes out first, and its holes and glue have to go.',
    fields: [
      field('inside', '', {
        bare: ['a cargo van', 'Cargo linings and a bulkhead, no more.'],
        converted: [
          'an earlier conversion',
          'Furniture, wires and insulation come out before anything else.',
        ],
      }),
    ],
  },
  {
    key: 'windows',
    ask: 'Which windows go in?',
    help: 'Each is a hole through the skin: it comes before everything that covers the metal, and wants a dry day above its sealant’s limit.',
    fields: [
      field('windows', '', {
        none: ['none'],
        sides: ['one on the left and one in the sliding door'],
        all: ['those, and panes in both rear doors'],
      }),
    ],
  },
  {
    key: 'roof-holes',
    ask: 'What goes through the roof?',
    help: 'Roof holes wait for dry, mild days, so they are worth planning around the season.',
    fields: [
      field('roofVent', 'Air and light', {
        none: ['nothing'],
        fan: ['a roof fan', 'It also shows draughts through the vapour film before the walls close.'],
        'fan-and-light': ['a roof fan and a roof light'],
      }),
      field('cooling', 'Cooling', {
        none: ['none'],
        'roof-unit': [
          'a cooling unit on the roof',
          'Some 25 kg up high, a stiffened opening and a cable of its own.',
        ],
      }),
    ],
  },
  {
    key: 'roof-top',
    ask: 'What goes on the roof?',
    help: 'Panels on a rack are bolted to it; without a rack their rails are bonded and need a week before the wind may pull at them.',
    fields: [
      field('roofRack', 'Roof rack', { no: ['no'], yes: ['yes', 'Bolted to the roof’s own fixing points.'] }),
      field('solar', 'Solar panels', { none: ['none'], one: ['one, 200 W'], two: ['two, 400 W'] }),
    ],
  },
  {
    key: 'outside',
    ask: 'What is fixed to the sides and the rear?',
    help: 'Each needs plates behind the skin, so it comes before the insulation.',
    fields: [
      field('awning', 'Awning', NO_YES),
      field('rearCarrier', 'Carrier on a rear door', NO_YES),
      field('lights', 'Lights outside', {
        none: ['none'],
        outside: ['porch lamp and reversing camera'],
        'outside-and-work': ['those, and work lights around the roof'],
      }),
    ],
  },
  {
    key: 'insulation',
    ask: 'Which insulation goes on the skin?',
    help: 'It decides the order: bonded sheet goes on before the conduits, spray foam and wool after them.',
    fields: [
      field('insulation', '', {
        sheet: [
          'bonded closed-cell sheet',
          'On the skin first; conduits on top, then loose fill around them.',
        ],
        foam: [
          'spray foam',
          'Every conduit, cable and test comes first, then the foam locks it all; nobody inside while it gasses out.',
        ],
        wool: ['wool', 'Conduits on the bare ribs, wool packed around them, vapour film over it.'],
      }),
    ],
  },
  {
    key: 'heater',
    ask: 'How is it heated?',
    help: 'A heater burns fuel in a closed room: its exhaust, fuel and alarms are checked in the plan, its rules are those of local code.',
    fields: [
      field('heater', '', {
        none: ['not at all'],
        diesel: ['diesel air heater', 'Fuel from the vehicle’s tank through a standpipe.'],
        gas: ['gas air heater', 'Gas locker, pipe and a tightness test by a competent person.'],
      }),
    ],
  },
  {
    key: 'cooking',
    ask: 'What do you cook on?',
    help: 'In many places a built-in cooker is part of what makes it a motor caravan on paper.',
    fields: [
      field('cooking', '', {
        none: ['a loose stove outside'],
        induction: ['an induction hob', 'Needs a big inverter and 230 V on board.'],
        gas: ['a gas hob', 'Gas locker, pipe, drop vents and a tightness test by a competent person.'],
      }),
    ],
  },
  {
    key: 'tanks',
    ask: 'Where is the water?',
    help: 'Inside is warm and takes room; below saves room and needs a heat pad and a jacket where it freezes.',
    fields: [
      field('freshWater', 'Fresh water', {
        none: ['canisters, no tank', 'No sink, pump or hoses.'],
        inside: ['a tank inside'],
        below: ['a tank below the floor'],
      }),
      field(
        'wasteWater',
        'Waste water',
        {
          none: ['a canister under the sink'],
          inside: ['a tank inside'],
          below: ['a tank below the floor'],
        },
        hasWater,
      ),
    ],
  },
  {
    key: 'hot-water',
    ask: 'What makes hot water?',
    help: 'The engine’s coolant warms it for nothing while you drive; the hoses run below and are pressure-tested before the floor closes.',
    fields: [
      field(
        'hotWater',
        '',
        {
          none: ['a kettle'],
          engine: ['a boiler warmed by the engine'],
          gas: ['a gas boiler', 'Gas locker, pipe and a tightness test by a competent person.'],
        },
        hasWater,
      ),
    ],
  },
  {
    key: 'mains',
    ask: 'Is there an inlet for mains?',
    help: 'In many places only a licensed electrician may do or connect this part: the plan shows two visits, one before the walls close.',
    fields: [field('mains', '', { no: ['no'], yes: ['yes, with charger and sockets'] })],
  },
  {
    key: 'seats',
    ask: 'Which seats travel?',
    help: 'Seats and belts need consent before the work, approved parts and often a workshop.',
    fields: [
      field('seats', '', {
        cab: ['those in the cab, as they are'],
        swivel: ['those in the cab, the passenger’s on a swivel'],
        belted: ['that, and two seats with belts behind'],
      }),
    ],
  },
  {
    key: 'bed',
    ask: 'Is the bed fixed or folding?',
    help: 'A fixed bed leaves a garage beneath it; a folding one gives the room back by day.',
    fields: [
      field('bed', '', {
        fixed: ['fixed, across the rear', 'With a rack for crates beneath.'],
        folding: ['folding, from a bench'],
      }),
    ],
  },
  {
    key: 'toilet',
    ask: 'Is there a toilet on board?',
    help: 'A cassette in the bench; it must be in hand before the sheets are cut.',
    fields: [field('toilet', '', NO_YES)],
  },
  {
    key: 'suspension',
    ask: 'What happens to the suspension?',
    help: 'Stiffer or higher springs change papers and axle figures; local code says who may fit them.',
    fields: [
      field('suspension', '', {
        'as-is': ['it stays'],
        'helper-springs': ['helper springs at the rear'],
        raised: ['raised, with bigger tyres', 'Asks for consent first and an inspection after.'],
      }),
    ],
  },
  {
    key: 'place',
    ask: 'Where do you build?',
    help: 'Sealant, paint and glue ask for warmth; the plan keeps them out of the days that cannot give it.',
    fields: [
      field('workshop', 'Workshop', {
        outdoors: ['outdoors', 'Everything waits for the weather.'],
        barn: ['a barn or garage without heating', 'A fan heater lifts it by some degrees.'],
        heated: ['a heated workshop', 'Only what must be done outdoors waits for the weather.'],
      }),
    ],
  },
  {
    key: 'built',
    ask: 'Have you built one before?',
    help: 'Hours are those of practised hands. A first build takes about half as long again until your own log says better.',
    fields: [
      field('built', '', {
        first: ['no, this is the first'],
        second: ['yes'],
      }),
    ],
  },
];

/** Asked beside the workshop: by name, or as twelve monthly means. */
export const CLIMATE_QUESTION = {
  key: 'climate',
  ask: 'How warm is it outdoors, month by month?',
  help: 'From these the plan knows the days on which sealant, paint and glue cannot be counted on. Invented, though plausible; your own twelve figures are better.',
} as const;

export const CLIMATE_WORDS: Readonly<Record<ClimateName, string>> = {
  'north-mild': 'north of the equator, mild winters',
  'north-cold': 'north of the equator, cold winters',
  'north-warm': 'north of the equator, warm',
  'south-mild': 'south of the equator, mild winters',
  'south-cold': 'south of the equator, cold winters',
  'south-warm': 'south of the equator, warm',
};

/** Weeks to begin from; each person's can be changed afterwards. */
export const RHYTHMS: readonly {
  readonly key: string;
  readonly words: string;
  readonly week: Static<typeof Week>;
}[] = [
  {
    key: 'evenings-and-saturday',
    words: 'two evenings and Saturday',
    week: week({ tue: ['18:30-21:00'], thu: ['18:30-21:00'], sat: ['09:00-12:30', '13:30-17:00'] }),
  },
  {
    key: 'saturday',
    words: 'Saturday only',
    week: week({ sat: ['09:00-12:30', '13:30-17:00'] }),
  },
  {
    key: 'weekends',
    words: 'Saturday and Sunday',
    week: week({ sat: ['09:00-12:30', '13:30-17:00'], sun: ['09:00-12:30', '13:30-17:00'] }),
  },
  {
    key: 'full-time',
    words: 'Monday to Friday, all day',
    week: week(
      Object.fromEntries(
        ['mon', 'tue', 'wed', 'thu', 'fri'].map((day) => [day, ['08:00-12:00', '13:00-17:00']]),
      ),
    ),
  },
];

function week(parts: Partial<Static<typeof Week>>): Static<typeof Week> {
  return { mon: [], tue: [], wed: [], thu: [], fri: [], sat: [], sun: [], ...parts };
}

/** What counts after all: a field that is not asked takes its first choice. */
export function settled(answers: Answers): Answers {
  const unasked = QUESTIONS.flatMap(({ fields }) => fields).filter((own) => !own.asked(answers));
  return Object.assign(
    { ...answers },
    Object.fromEntries(unasked.map(({ key, choices }) => [key, choices[0]!.value])),
  ) as Answers;
}
