/**
 * What kinds a task made by hand is likely of, from the words of its name and the depths it works at. A guess is a
 * question to the builder, never a fact: nothing is judged by it before it has been answered. The words are English.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Caution, Task } from '../contract/task.ts';
import { kindOf } from './kinds.ts';

export interface KindGuess {
  readonly kinds: readonly string[];
  /** The name alone says it; else it may well be something else. */
  readonly sure: boolean;
}

interface Clue {
  readonly kind: string;
  readonly words: RegExp;
  /** Words that make it something else. */
  readonly unless?: RegExp;
  /** The words have other meanings too. */
  readonly weak?: true;
}

/** Of clues that overlap the more particular stands first: it takes the words, and the later ones see the rest. */
const CLUES: readonly Clue[] = [
  { kind: 'gas-test', words: /\bgas\b.*\b(test|tightness|check)|\btightness\b/ },
  { kind: 'pressure-test', words: /\bpressure[ -]?test/ },
  { kind: 'leak-test', words: /\b(hose|rain|shower|leak)[ -]?test|\btest\b.*\bleaks?\b/ },
  { kind: 'water-test', words: /\bfill\b.*\b(test|sanitise|sanitize)|\bwater[ -]?test/ },
  { kind: 'pull-test', words: /\b(pull|load|torque)\b.*\btest/ },
  { kind: 'dead-test', words: /\bdead[ -]?tests?\b|\btests? (of|on) the dead\b/ },
  { kind: 'live-test', words: /\blive[ -]?tests?\b|\brcd\b.*\btest/ },
  {
    kind: 'cable-test',
    words: /\b(continuity|polarity|insulation resistance)\b|\b(cable|wire|wiring|circuit)s?\b.*\btest/,
  },
  { kind: 'heater-test', words: /\bheater\b.*\b(test|first run|run)\b|\btest\b.*\bheater\b/ },
  { kind: 'vapour-check', words: /\b(film|membrane|vapou?r)\b.*\b(check|test|draught|leaks?)\b/ },
  { kind: 'belt-check', words: /\b(seat ?)?belts?\b.*\b(check|run free|test|mark)|\bcheck\b.*\bbelts?\b/ },
  { kind: 'soak-test', words: /\b(soak|off-grid|trial)\b.*\b(test|night|stay)/ },
  { kind: 'weigh-loaded', words: /\bweigh\b.*\bloaded\b|\bloaded\b.*\bweigh/ },
  { kind: 'weigh', words: /\bweigh(ing|bridge)?\b/ },
  { kind: 'mass-table', words: /\b(mass|weight|axle)\b.*\b(table|budget|sum|estimate)/ },
  { kind: 'electrician-look', words: /\belectrician\b.*\b(look|see|visit|inspect)/ },
  { kind: 'certificate', words: /\bcertificate\b/ },
  { kind: 'first-power', words: /\b(first power|power[ -]?up|switch on)\b/ },
  { kind: 'confirm-opening', words: /\b(confirm|check)\b.*\b(opening|hole|cut)s?\b/ },
  { kind: 'mark', words: /^mark\b/ },
  { kind: 'soft', words: /\b(cushions?|mattress|curtains?|mats?)\b/ },
  { kind: 'bench-cut', words: /\btemplate\b|\b(panels?|sheets?)\b.*\bcut\b/ },
  { kind: 'strip-out', words: /\bstrip[ -]?out\b|\b(remove|take out|rip out)\b/ },
  { kind: 'trace-lines', words: /\b(trace|locate)\b.*\b(lines?|harness|looms?|cables?|pipes?)\b/ },
  { kind: 'swarf', words: /\bswarf\b|\bfilings\b/ },
  {
    kind: 'cut-opening',
    words: /\b(cut|drill|saw)\b.*\b(hole|opening|roof|window|skin|vent|fan|floor|hatch|inlet)/,
    unless: /\b(panel|sheet|ply|boards?|sub-?floor|insulation)\b/,
  },
  {
    kind: 'cut-opening',
    words: /\b(fit|install)\b.*\b(window|roof fan|roof light|skylight|vent)s?\b/,
    weak: true,
  },
  { kind: 'cut-opening', words: /\b(windows?|panes?|fan|roof ?light|openings?|inlets?)\b.*\bcut\b/ },
  { kind: 'seal', words: /\b(seal|sealant|bedded|glaze)\b/ },
  { kind: 'bond', words: /\bbond\b.*\b(rail|bracket)s?\b/ },
  { kind: 'solar', words: /\bsolar\b/, unless: /\b(cable|regulator|controller|charger)\b/ },
  { kind: 'damping', words: /\b(damping|deadening|deadener|butyl)\b/ },
  {
    kind: 'fixing-point',
    words: /\b(threaded )?inserts?\b|\brivet ?nuts?\b|\b(fixing|anchor|hard) ?(points?|plates?)\b/,
  },
  { kind: 'blocking', words: /\bblocking\b|\bnoggins?\b/ },
  { kind: 'cavity-wax', words: /\bcavity wax\b|\bwax\b.*\b(sills?|ribs?|cavit)/ },
  { kind: 'under-wax', words: /\b(underbody|underseal|stone guard)\b.*|\bwax\b.*\bunder/, weak: true },
  {
    kind: 'foam',
    words:
      /\b(spray|canned|can|expanding|pu)[ -]?foam|\bfoam\b.*\b(pillars?|cavit|walls?|gaps?)|\bspray\b.*\bfoam\b/,
  },
  { kind: 'insulation', words: /\binsulat/, unless: /\binsulation (test|resistance)\b/ },
  { kind: 'fill', words: /\b(rib|cavity) ?fill\b|\bfill\b.*\b(ribs?|cavit)/ },
  { kind: 'vapour-film', words: /\bvapou?r\b.*\b(film|barrier|control)|\bmembrane\b/ },
  { kind: 'rail', words: /\brails?\b/, unless: /\bsolar\b/ },
  { kind: 'batten', words: /\b(battens?|furring)\b/ },
  { kind: 'sub-floor', words: /\bsub-?floor\b/ },
  { kind: 'floor-covering', words: /\b(floor covering|vinyl|lino(leum)?|floor finish|laminate)\b/ },
  { kind: 'bench-finish', words: /\b(oil|varnish|paint)\b.*\b(panels?|boards?|fronts?)\b/ },
  { kind: 'bench-cut', words: /\b(cut|template)\b.*\b(panels?|sheets?|ply|boards?)\b/ },
  {
    kind: 'lining',
    words: /\b(lining|cladding|clad|panelling)\b|\b(close|panel|line)\b.*\b(walls?|ceiling|doors?)\b/,
  },
  { kind: 'gas', words: /\bgas\b/ },
  { kind: 'fuel', words: /\b(fuel|diesel)\b.*\b(line|pump|pipe|standpipe|tank)/ },
  { kind: 'exhaust', words: /\bexhaust\b/ },
  { kind: 'heater', words: /\bheater\b/ },
  { kind: 'boiler', words: /\bboiler\b/ },
  { kind: 'duct', words: /\bducts?\b|\bducting\b/ },
  { kind: 'tank', words: /\btanks?\b/ },
  { kind: 'sink', words: /\b(sink|tap|faucet)\b/ },
  { kind: 'hose', words: /\b(hoses?|drains?|plumb(ing)?|water pipes?)\b/ },
  { kind: 'conduit', words: /\bconduits?\b/ },
  { kind: 'mains', words: /\b(230|240|120|110) ?v\b|\bmains\b/ },
  { kind: 'cable', words: /\b(cables?|wires?|wiring|loom)\b/ },
  { kind: 'label', words: /\blabels?\b/ },
  { kind: 'fuse-board', words: /\bfuse ?(board|box)\b/ },
  { kind: 'main-fuse', words: /\bmain fuse\b|\bbusbars?\b|\bisolator\b/ },
  { kind: 'charger', words: /\bchargers?\b|\bregulator\b/ },
  { kind: 'battery', words: /\bbatter(y|ies)\b/ },
  { kind: 'overhead', words: /\boverhead\b/ },
  { kind: 'bed', words: /\bbed\b/ },
  { kind: 'worktop', words: /\b(worktop|countertop|counter)\b/ },
  { kind: 'fronts', words: /\b(drawers?|locker doors?|fronts)\b/ },
  {
    kind: 'furniture',
    words: /\b(furniture|kitchen|cabinets?|lockers?|bench(?! supply)|wardrobe|carcass(es)?)\b/,
  },
  { kind: 'appliance', words: /\b(fridge|hob|cooker|oven|microwave)\b/ },
  { kind: 'lamps', words: /\b(lamps?|lights?|switches|outlets?|sockets?)\b/, weak: true },
  { kind: 'alarms', words: /\b(smoke|co|carbon monoxide)\b.*\balarms?\b|\balarms?\b/ },
  { kind: 'seat', words: /\b(swivel|seats?)\b/ },
  { kind: 'weld', words: /\bweld/ },
  { kind: 'rust', words: /\brust\b/ },
  { kind: 'paint', words: /\b(primer?|paint|top ?coat)\b/, unless: /\bedge primer\b/ },
  { kind: 'clean', words: /\b(degrease|wash|vacuum|clean)\b/, weak: true },
  { kind: 'photo', words: /\bphotos?\b|\bphotograph\b/ },
  { kind: 'inspection', words: /\binspection\b/, weak: true },
  { kind: 'registration', words: /\bregist(er|ration)\b/ },
  { kind: 'consent', words: /\bconsent\b/ },
  { kind: 'plan', words: /\b(layout|mock-?up|draw|plan)\b/, weak: true },
  { kind: 'shakedown', words: /\bshake-?down\b|\bfirst trip\b/ },
  { kind: 'trim', words: /\btrims?\b|\bcover strips?\b/, weak: true },
];

/** What work at a depth usually is, where the name says nothing: by how the depth is drawn, which every depth has. */
const BY_HATCH: Readonly<Record<string, string>> = {
  opening: 'cut-opening',
  damping: 'damping',
  fixing: 'fixing-point',
  sheet: 'insulation',
  fill: 'fill',
  film: 'vapour-film',
  batten: 'batten',
  rail: 'rail',
  furniture: 'furniture',
  wax: 'seal',
};

/** A name holds a handful of kinds at most; more is a list, not a task. */
const MOST = 3;
/** Longer names say too much to be sure of one thing, letters. */
const SHORT = 48;

/** Null where neither name nor place gives a clue. */
export function guessKinds(
  { name, places }: Pick<Task, 'name' | 'places'>,
  hatchOf: (depth: string) => string,
): KindGuess | null {
  let left = name.toLowerCase();
  const kinds: string[] = [];
  let weak = false;
  for (const clue of CLUES) {
    const match = clue.words.exec(left);
    if (match === null || kinds.includes(clue.kind) || clue.unless?.test(left) === true) continue;
    kinds.push(clue.kind);
    weak ||= clue.weak === true;
    // A test takes its words with it: "hose test" is no hose.
    if (/test|check|look|weigh/.test(clue.kind)) left = left.replace(match[0], ' ');
    if (kinds.length === MOST) break;
  }
  if (kinds.length > 0) return { kinds, sure: !weak && kinds.length === 1 && name.length <= SHORT };
  const depths = new Set(places.map(({ depth }) => BY_HATCH[hatchOf(depth)]));
  const [only] = depths;
  return depths.size === 1 && only !== undefined ? { kinds: [only], sure: false } : null;
}

export interface KindQuestion {
  readonly task: string;
  readonly guess: KindGuess;
}

/** The tasks without kinds that the names say something of, by key. Finished ones last: little hangs on them. */
export function kindQuestions({ tasks, depths }: Pick<BuildFile, 'tasks' | 'depths'>): KindQuestion[] {
  const hatches = new Map<string, string>(depths.map(({ key, hatch }) => [key, hatch]));
  const questions: (KindQuestion & { readonly done: boolean })[] = [];
  for (const task of tasks) {
    if (task.kinds.length > 0) continue;
    const guess = guessKinds(task, (depth) => hatches.get(depth) ?? 'plain');
    if (guess !== null) questions.push({ task: task.key, guess, done: task.state === 'finished' });
  }
  return questions
    .sort((a, b) => Number(a.done) - Number(b.done) || (a.task < b.task ? -1 : 1))
    .map(({ task, guess }) => ({ task, guess }));
}

/** Cautions that come with kinds and that the task does not carry yet, to be suggested. */
export function cautionsOfKinds(kinds: readonly string[], has: readonly Caution[]): Caution[] {
  const wanted = kinds.flatMap((kind) => kindOf(kind)?.cautions ?? []);
  return [...new Set(wanted)].filter((caution) => !has.includes(caution));
}
