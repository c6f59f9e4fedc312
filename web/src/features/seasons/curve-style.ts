/** How curves that are brought out are distinguished: by dash and weight as well as by colour. */
export interface CurveStyle {
  readonly class: string;
  readonly words: string;
}

export const curveStyles: readonly CurveStyle[] = [
  { class: 'curve-a', words: 'full line' },
  { class: 'curve-b', words: 'long dashes' },
  { class: 'curve-c', words: 'short dashes' },
  { class: 'curve-d', words: 'dash and dot' },
  { class: 'curve-e', words: 'dots' },
  { class: 'curve-f', words: 'wide gaps' },
];

export const mostBroughtOut = curveStyles.length;
