/** What the answers come to: is there gas on board, is there 230 V. One place decides, the rest of the starter asks it. */
import type { Answers } from './answers.ts';
import { settled } from './questions.ts';

/** Answers with what is not asked taken as its first choice, and what follows from several of them. */
export interface Facts extends Answers {
  readonly sideWindows: boolean;
  readonly rearWindows: boolean;
  readonly fan: boolean;
  readonly roofLight: boolean;
  readonly coolingUnit: boolean;
  readonly rack: boolean;
  readonly panels: boolean;
  readonly workLights: boolean;
  /** Cables come in through the roof. */
  readonly gland: boolean;
  readonly water: boolean;
  readonly heated: boolean;
  readonly warmWater: boolean;
  /** Anything burns bottled gas. */
  readonly gas: boolean;
  /** 230 V on board, from an inlet or only from an inverter. */
  readonly mainsAboard: boolean;
  readonly inlet: boolean;
}

export function factsOf(told: Answers): Facts {
  const answers = settled(told);
  const { windows, roofVent, cooling, roofRack, solar, lights, freshWater } = answers;
  const workLights = lights === 'outside-and-work';
  return {
    ...answers,
    sideWindows: windows !== 'none',
    rearWindows: windows === 'all',
    fan: roofVent !== 'none',
    roofLight: roofVent === 'fan-and-light',
    coolingUnit: cooling !== 'none',
    rack: roofRack === 'yes',
    panels: solar !== 'none',
    workLights,
    gland: solar !== 'none' || workLights,
    water: freshWater !== 'none',
    heated: answers.heater !== 'none',
    warmWater: answers.hotWater !== 'none',
    gas: [answers.heater, answers.cooking, answers.hotWater].includes('gas'),
    mainsAboard: answers.mains === 'yes' || answers.cooking === 'induction',
    inlet: answers.mains === 'yes',
  };
}
