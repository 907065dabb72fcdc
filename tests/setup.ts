import fc from 'fast-check';

/**
 * One seed for every property, so that a run says the same on every machine; `FC_SEED=7 npm test` tries
 * other cases. What another seed finds becomes a test of its own.
 */
fc.configureGlobal({ seed: Number(process.env.FC_SEED ?? 20_261_125) });
