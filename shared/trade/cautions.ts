/**
 * What to mind at a task that can hurt someone: one sentence for each caution, common practice. None says that something
 * is safe or allowed: each leaves the rules to local code, and the work to licensed trades where the law asks for them.
 */
import type { Caution } from '../contract/task.ts';

export interface CautionWords {
  /** What the danger is, in a few words. */
  readonly name: string;
  /** What is usually done about it. */
  readonly words: string;
}

export const CAUTION_WORDS: Readonly<Record<Caution, CautionWords>> = {
  electricity: {
    name: 'Electricity',
    words:
      'Isolate and prove dead before touching, fuse at the source; local code decides how it is wired and which part is left to a licensed electrician.',
  },
  mains: {
    name: 'Mains voltage',
    words:
      'Mains can kill: unplug and prove dead; in many places only a licensed electrician may do or connect this, and local code decides how.',
  },
  battery: {
    name: 'Battery',
    words:
      'A battery can weld a spanner and burn: rings off, insulated tools, one pole covered; follow its maker and local code, and ask a licensed trade where unsure.',
  },
  gas: {
    name: 'Gas',
    words:
      'Gas leaks collect low and explode: no flame, no sparks, air through; gas work is for a licensed gas fitter where local code says so.',
  },
  fuel: {
    name: 'Fuel',
    words:
      'Fuel vapour catches fire: cold engine, battery off, no flame, extinguisher at hand; local code and the vehicle maker decide how lines may be changed, a licensed garage does it where they say so.',
  },
  exhaust: {
    name: 'Exhaust gas',
    words:
      'Exhaust gas kills without a smell: run it outdoors only, keep its way out clear, set a carbon monoxide alarm; heater rules are those of local code, its maker and a licensed fitter.',
  },
  'hot-work': {
    name: 'Flame and sparks',
    words:
      'Clear what burns on both sides of the metal, extinguisher at hand, look again an hour later; local code may ask for a licensed welder on the body.',
  },
  drilling: {
    name: 'Drilling blind',
    words:
      'Look at what lies behind before the drill goes through: tank, lines, looms, tyres; use a stop and wear goggles; the vehicle maker and local code say where no hole may go, a licensed body shop where unsure.',
  },
  airbag: {
    name: 'Airbags',
    words:
      'Airbags and belt tensioners can go off: battery off and waited, keep out of their pillars and looms; local code and the maker leave work on them to licensed trades.',
  },
  'brake-lines': {
    name: 'Brake lines',
    words:
      'Find the brake lines and keep clips, screws and heat away from them; anything done to brakes is for a licensed garage and local code.',
  },
  'seat-belt': {
    name: 'Seats and belts',
    words:
      'Seats, belts and their anchors hold lives: leave them as approved; any change goes through local code and a licensed or approved workshop.',
  },
  lifting: {
    name: 'Lifting',
    words:
      'Lift with two or with a hoist, feet clear, way clear; workplace rules of local code set what one person may lift, and a licensed lifting trade takes what is heavier.',
  },
  'under-vehicle': {
    name: 'Under the vehicle',
    words:
      'Never under a jack alone: level ground, wheels chocked, rated stands; local code and licensed garages set the rule for lifts.',
  },
  height: {
    name: 'Work at height',
    words:
      'A firm platform rather than a ladder, nobody alone on the roof, nothing wet; local code says when protection or a licensed trade is asked for.',
  },
  dust: {
    name: 'Dust',
    words:
      'Mask that fits, goggles, extraction at the tool, clean before you take the mask off; local code and licensed trades for what may hold asbestos or old lead paint.',
  },
  solvents: {
    name: 'Solvents and vapours',
    words:
      'Air through, respirator with the right filter, gloves, no flame; read the data sheet, local code rules storage and waste, some products are for licensed trades only.',
  },
  'sharp-edges': {
    name: 'Sharp edges',
    words:
      'Cut-proof gloves, deburr at once, swarf off before hands go in; local code and licensed body shops decide how far the body may be cut.',
  },
  pressure: {
    name: 'Pressure',
    words:
      'Let the pressure off before a joint is loosened, stand aside while testing, stay below the lowest rated part; local code and licensed trades set test pressures.',
  },
  road: {
    name: 'On the road',
    words:
      'Everything lashed, weight and papers in order before it rolls; local code, insurer and a licensed test centre decide whether it may be driven.',
  },
};
