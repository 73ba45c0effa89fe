/** One seed for all property tests of a run, printed with every counterexample; FC_SEED replays it. */
import fc from 'fast-check';

const seed = Number(process.env['FC_SEED'] ?? 20_260_606);
fc.configureGlobal({ seed, numRuns: Number(process.env['FC_RUNS'] ?? 100) });
