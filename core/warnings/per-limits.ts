/** Words that depend on a stage's limits alone, made once: they are asked for every minute. */
import type { StageLimits } from '../../shared/stage.ts';

export function perLimits(build: (limits: StageLimits) => string): (limits: StageLimits) => string {
  const made = new WeakMap<StageLimits, string>();
  return (limits) => {
    let words = made.get(limits);
    if (words === undefined) {
      words = build(limits);
      made.set(limits, words);
    }
    return words;
  };
}
