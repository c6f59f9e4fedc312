/**
 * Colour arithmetic for the scale of heat and for checking what can be distinguished.
 *
 * Source: B. Ottosson, "A perceptual color space for image processing", 2020 (Oklab matrices);
 *         WCAG 2.2, definitions of relative luminance and contrast ratio.
 */
export type Triple = readonly [number, number, number];

export interface Oklch {
  readonly lightness: number;
  readonly chroma: number;
  readonly hueDeg: number;
}

export function hexFromLinear(rgb: Triple): string {
  const channel = (value: number) => {
    const clipped = Math.min(1, Math.max(0, value));
    const encoded = clipped <= 0.0031308 ? clipped * 12.92 : 1.055 * clipped ** (1 / 2.4) - 0.055;
    return Math.round(encoded * 255)
      .toString(16)
      .padStart(2, '0');
  };
  return `#${channel(rgb[0])}${channel(rgb[1])}${channel(rgb[2])}`;
}

/** White is [1, 0, 0] in Oklab; distances in this space are near even to the eye. */
export function linearFromOklab([lightness, a, b]: Triple): Triple {
  const l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (lightness - 0.0894841775 * a - 1.291485548 * b) ** 3;
  return [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
}

export function oklabFromOklch({ lightness, chroma, hueDeg }: Oklch): Triple {
  const hueRad = (hueDeg * Math.PI) / 180;
  return [lightness, chroma * Math.cos(hueRad), chroma * Math.sin(hueRad)];
}

export function mixTriple(from: Triple, to: Triple, part: number): Triple {
  return [from[0] + (to[0] - from[0]) * part, from[1] + (to[1] - from[1]) * part, from[2] + (to[2] - from[2]) * part];
}

/** Euclidean distance in Oklab; about 0.02 is just distinguishable side by side. */
export function distance(one: Triple, other: Triple): number {
  return Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);
}
