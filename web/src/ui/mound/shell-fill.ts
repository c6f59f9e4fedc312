/** How one shell of a drawn pile is coloured at one height. */
export interface ShellFill {
  readonly tempC: number;
  /** 1 where both ends are known; less the nearer an unknown end. */
  readonly opacity: number;
}

export function shellFill(skinC: number | null, coreC: number | null, inward: number): ShellFill | null {
  if (skinC !== null && coreC !== null) return { tempC: skinC + (coreC - skinC) * inward, opacity: 1 };
  if (coreC !== null) return { tempC: coreC, opacity: inward ** 0.9 };
  if (skinC !== null) return { tempC: skinC, opacity: (1 - inward) ** 0.9 };
  return null;
}
