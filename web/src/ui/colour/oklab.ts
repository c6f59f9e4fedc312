/**
 * Colour arithmetic for the scale of heat and for checking what can be told apart.
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

export function linearFromHex(hex: string): Triple {
  const channel = (start: number) => {
    const value = Number.parseInt(hex.slice(start, start + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
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

/** White is [1, 0, 0]; distances in this space are near even to the eye. */
export function oklabFromLinear([r, g, b]: Triple): Triple {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

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

/** Euclidean distance in Oklab; about 0.02 is just told apart side by side. */
export function distance(one: Triple, other: Triple): number {
  return Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);
}

function luminance(hex: string): number {
  const [r, g, b] = linearFromHex(hex);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio of WCAG 2.2, 1 to 21. @example contrastRatio('#000000', '#ffffff') // => 21 */
export function contrastRatio(one: string, other: string): number {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}
