/** A chart as pages draw it, with a number at each of its parts; the list beside it has the same numbers. */
import { type Point, pathOf } from '../../ui/mound/mound-shape.ts';
import './help-drawings.css';

const at = (pairs: readonly (readonly [x: number, y: number])[]): Point[] => pairs.map(([x, y]) => ({ x, y }));

const before = at([
  [14, 128],
  [34, 122],
  [54, 100],
  [76, 74],
  [96, 63],
  [112, 59],
]);
const after = at([
  [142, 60],
  [158, 64],
  [168, 88],
  [186, 80],
  [206, 72],
  [224, 69],
]);
const middle = [
  ...before,
  ...at([[134, 60]]),
  ...after.slice(1, 2),
  ...at([
    [190, 74],
    [224, 76],
  ]),
];
const bandHalf = (x: number) => 6 + x / 16;
const edge = (side: 1 | -1) => middle.map(({ x, y }) => ({ x, y: y + side * bandHalf(x) }));
const ahead = [0, 1, 2, 3, 4].map((step) => ({ x: 238 + 16 * step, y: 70 + 2.5 * step, half: 5 + 4.5 * step }));

/** Where the number of each part stands. */
const numbers = at([
  [66, 108],
  [122, 84],
  [128, 40],
  [162, 136],
  [28, 32],
  [200, 106],
  [284, 36],
]);

export function ChartDrawing({ words }: { readonly words: string }) {
  return (
    <svg class="help-svg" viewBox="0 0 320 160" role="img" aria-label={words}>
      <path class="help-band" d={`${pathOf([...edge(-1), ...edge(1).reverse()])}Z`} />
      <path class="help-level" d="M14 46H308" />
      <path class="help-line" d={pathOf(before) + pathOf(after)} />
      <circle class="help-ring" cx="127" cy="58" r="3.6" />
      <path class="help-thin" d="M14 150H308M158 150V70M224 150V20" />
      <path class="help-fan" d={ahead.map(({ x, y, half }) => `M${x} ${y - half}V${y + half}`).join('')} />
      <path class="help-fan-middle" d={ahead.map(({ x, y }) => `M${x - 3.5} ${y}H${x + 3.5}`).join('')} />
      {numbers.map(({ x, y }, i) => (
        <g key={`${x} ${y}`}>
          <circle class="help-badge" cx={x} cy={y} r="8.5" />
          <text class="help-badge-number" x={x} y={y + 4} text-anchor="middle">
            {i + 1}
          </text>
        </g>
      ))}
    </svg>
  );
}
