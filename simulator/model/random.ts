/** Random numbers that the same seed always repeats. It never reads a clock or `Math.random`. */

export interface Random {
  /** Even in [0, 1). */
  next(): number;
  /** Even in [min, max). */
  between(min: number, max: number): number;
  /** Normal with mean 0 and standard deviation 1. */
  normal(): number;
  pick<T>(items: readonly [T, ...T[]]): T;
}

/** A whole 32-bit number from text, so that names can seed their own stream (FNV-1a). */
export function seedOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}

/** Stateless: the even number in [0, 1) that belongs to place `index` of the table `seed`. */
export function randomAt(seed: number, index: number): number {
  let h = (seed ^ Math.imul(index | 0, 0x9e3779b1)) | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 4_294_967_296;
}

export function createRandom(seed: number): Random {
  let count = 0;
  const next = () => {
    count += 1;
    return randomAt(seed | 0, count);
  };
  return {
    next,
    between: (min, max) => min + (max - min) * next(),
    // Box-Muller; 1 - u keeps the logarithm finite.
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    pick: (items) => items[Math.floor(next() * items.length)] ?? items[0],
  };
}
