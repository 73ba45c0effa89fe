/**
 * How many decimals a currency has. A table instead of the engine's own locale data, which rounds some of them (IQD, for
 * one) to none: the plan must come out the same wherever it is computed.
 */

/** Currencies whose minor unit is not a hundredth. ISO 4217, list one, minor units (as generated into SpiderMonkey, 2026-01-01). */
const DIGITS: Readonly<Record<string, number>> = {
  BHD: 3,
  BIF: 0,
  CLF: 4,
  CLP: 0,
  DJF: 0,
  GNF: 0,
  IQD: 3,
  ISK: 0,
  JOD: 3,
  JPY: 0,
  KMF: 0,
  KRW: 0,
  KWD: 3,
  LYD: 3,
  OMR: 3,
  PYG: 0,
  RWF: 0,
  TND: 3,
  UGX: 0,
  UYI: 0,
  UYW: 4,
  VND: 0,
  VUV: 0,
  XAF: 0,
  XOF: 0,
  XPF: 0,
};

/** Decimals of the currency: its minor unit is a unit / 10^digits. */
export function minorDigits(currency: string): number {
  return DIGITS[currency] ?? 2;
}
