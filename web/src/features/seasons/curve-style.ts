/** How curves that are brought out are distinguished: by dash and weight as well as by colour. */
export interface CurveStyle {
  readonly class: string;
}

export const curveStyles: readonly CurveStyle[] = [
  { class: 'curve-a' },
  { class: 'curve-b' },
  { class: 'curve-c' },
  { class: 'curve-d' },
  { class: 'curve-e' },
  { class: 'curve-f' },
];

export const mostBroughtOut = curveStyles.length;
