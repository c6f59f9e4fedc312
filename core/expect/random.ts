/**
 * A small seeded generator, so that the same batch always gets the same band. It never serves secrets: it is a 32-bit
 * mixing generator, good enough for some thousand draws.
 */
export interface Random {
  /** Uniform in [0, 1). */
  uniform(): number;
  /** Normal with this mean and standard deviation (Box-Muller). */
  normal(mean: number, sd: number): number;
  /** Log-normal: the median, and the standard deviation of the logarithm. */
  logNormal(median: number, logSd: number): number;
  between(low: number, high: number): number;
}

export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  const uniform = (): number => {
    // A Weyl sequence put through a 32-bit finaliser (multiply, xor-shift); constants from memory.
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 4294967296;
  };
  const normal = (mean: number, sd: number): number =>
    mean + sd * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return {
    uniform,
    normal,
    logNormal: (median, logSd) => median * Math.exp(normal(0, logSd)),
    between: (low, high) => low + (high - low) * uniform(),
  };
}
