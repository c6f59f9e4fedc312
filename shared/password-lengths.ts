/** Shortest and longest password that is taken [characters]. */
export const passwordLengths = { min: 12, max: 256 } as const;
