/** A likelihood as chances in ten. It never says certain. */

/** @example chancesInTen(0.78) // => "8 chances in 10" */
export function chancesInTen(likelihood: number): string {
  if (likelihood > 0.95) return 'more than 9 chances in 10';
  if (likelihood < 0.05) return 'less than 1 chance in 10';
  const chances = Math.min(9, Math.max(1, Math.round(likelihood * 10)));
  return `${chances} ${chances === 1 ? 'chance' : 'chances'} in 10`;
}
