/** A squeezed handful, and what grows in a pile. */
import type { SqueezeFeel } from '../../../../shared/squeeze.ts';
import './help-drawings.css';

interface WordsProps {
  /** For those who hear it. */
  readonly words: string;
}

export function SqueezeDrawing({ feel, words }: WordsProps & { readonly feel: SqueezeFeel }) {
  return (
    <svg class="help-svg" viewBox="0 0 120 112" role="img" aria-label={words}>
      <path class="help-hand" d="M43 0V16M77 0V16" />
      {[32, 46, 60, 74].map((x) => (
        <rect class="help-hand" key={x} x={x} y="14" width="14" height="38" rx="7" />
      ))}
      <path class="help-hand" d="M88 22C98 24 98 40 86 42H62C56 42 56 34 62 34H78" />
      <g>{results[feel]}</g>
    </svg>
  );
}

const drop = (x: number, y: number) =>
  `M${x} ${y}C${x + 4} ${y + 6} ${x + 5} ${y + 8} ${x + 5} ${y + 11}A5 5 0 0 1 ${x - 5} ${y + 11}C${x - 5} ${y + 8} ${x - 4} ${y + 6} ${x} ${y}Z`;

/** Crumbs as they fall, larger and smaller. */
const crumbs: readonly (readonly [x: number, y: number, size: number])[] = [
  [38, 62, 4],
  [55, 60, 5],
  [74, 64, 4],
  [30, 78, 5],
  [47, 80, 3.5],
  [64, 77, 5],
  [84, 82, 4],
  [24, 98, 4],
  [40, 97, 5],
  [57, 96, 4],
  [72, 99, 5],
  [92, 100, 4],
];

const results: Readonly<Record<SqueezeFeel, preact.JSX.Element>> = {
  crumbles: (
    <path
      class="help-fill"
      d={crumbs
        .map(([x, y, size]) => `M${x} ${y}l${size} ${size * 0.4}l${-size * 0.3} ${size}l${-size} ${-size * 0.2}Z`)
        .join('')}
    />
  ),
  holds: (
    <path
      class="help-hand"
      d="M60 62C74 61 84 70 83 84C82 98 72 107 59 106C46 106 37 97 38 83C38 70 47 62 60 62ZM50 76l5 3M66 72l4 4M56 90l5 -2M70 88l3 4M48 88l2 4"
    />
  ),
  drips: <path class="help-water" d={drop(44, 62) + drop(60, 78) + drop(78, 66)} />,
  pours: (
    <path
      class="help-stream"
      d="M42 56C39 68 45 78 42 100M54 56C51 70 57 82 54 100M66 56C63 68 69 80 66 100M79 56C76 70 82 82 79 100M28 104C44 99 78 99 94 104"
    />
  ),
};

const grains = Array.from({ length: 60 }, (_, i) => ({
  x: 8 + ((i * 37) % 224),
  y: 8 + ((i * 53) % 76),
  size: 2.5 + ((i * 7) % 4),
}));

/** Bran or soil cut open; the colours are fixed, as white threads are white on every screen. */
export function GrowthDrawing({ growth, words }: WordsProps & { readonly growth: 'threads' | 'patches' }) {
  return (
    <svg class="help-svg" viewBox="0 0 240 92" role="img" aria-label={words}>
      <rect class="help-earth" width="240" height="92" rx="2" />
      {grains.map(({ x, y, size }) => (
        <circle class="help-grain" key={`${x} ${y}`} cx={x} cy={y} r={size} />
      ))}
      {growth === 'threads' ? (
        <path
          class="help-thread"
          d="M0 22C30 10 52 34 84 24S150 4 182 20S226 30 240 18M0 52C26 60 44 40 72 50S130 72 160 54S214 44 240 58M0 80C34 70 62 88 96 76S170 82 196 72S226 80 240 74M22 0C30 20 14 40 30 58S38 80 28 92M92 0C84 22 104 44 94 64S100 84 96 92M158 0C150 18 170 38 160 60S164 82 156 92M212 0C220 22 204 44 214 62S210 82 216 92"
        />
      ) : (
        <>
          <path
            class="help-mould-dark"
            d="M38 22C50 14 70 18 74 30C80 42 62 52 50 48C36 46 28 32 38 22ZM160 48C176 42 196 50 196 64C196 78 172 82 160 76C148 70 148 54 160 48Z"
          />
          <path class="help-mould-edge" d="M104 52C114 44 128 50 128 60C128 70 114 74 106 68C100 64 98 58 104 52Z" />
          <path class="help-mould-lines" d="M103 60L112 49M105 67L121 49M111 71L127 55M119 71L128 62" />
        </>
      )}
    </svg>
  );
}
