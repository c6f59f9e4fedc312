/** What the drawings of a debrief share: hours, acts, the hour looked at, names at line ends. */
import type { ComponentChildren } from 'preact';
import type { ActEffect } from '../../../../simulator/practice/debrief.ts';
import { spreadRows } from '../../ui/mound/mound-layout.ts';
import { linePath, numberMarks, type Scale } from './cut-drawing.ts';
import { midnightsOf, nightsOf } from './night-line.ts';
import type { HourValue } from './said-and-so.ts';
import { usePracticeWords } from './use-practice-words.ts';
import './cut-open.css';

export const cut = { left: 46, right: 74, height: 116, numbersHeight: 28, headroom: 8, daysHeight: 24 } as const;

export interface CutShared {
  readonly width: number;
  readonly x: Scale;
  readonly endH: number;
  readonly startedAtMs: number;
  readonly afterH: number;
  readonly onHour: (afterH: number) => void;
  readonly acts: readonly ActEffect[];
}

interface CutFrameProps extends CutShared {
  readonly title: string;
  readonly marks: readonly number[];
  readonly y: Scale;
  readonly say: (value: number) => string;
  readonly words: string;
  readonly height?: number;
  /** Days are written below. */
  readonly days?: boolean;
  /** Acts are numbered above. */
  readonly numbers?: boolean;
  readonly ends?: readonly { readonly words: string; readonly y: number; readonly class: string }[];
  readonly children: ComponentChildren;
}

export function CutFrame(props: CutFrameProps) {
  const { title, words, width, x, endH, afterH, onHour, height = cut.height, days = false, numbers = false } = props;
  const above = numbers ? cut.numbersHeight : cut.headroom;
  const tall = above + height + (days ? cut.daysHeight : cut.headroom);
  const look = (event: PointerEvent) => {
    if (event.pointerType !== 'mouse' && event.type === 'pointermove' && event.buttons === 0) return;
    const left = (event.currentTarget as Element).getBoundingClientRect().left;
    const hour = Math.round(((event.clientX - left - cut.left) / (width - cut.left - cut.right)) * endH);
    onHour(Math.min(endH, Math.max(0, hour)));
  };
  return (
    <figure class="cut">
      <figcaption>
        <h3>{title}</h3>
      </figcaption>
      <svg
        width={width}
        height={tall}
        viewBox={`0 ${-above} ${width} ${tall}`}
        role="img"
        aria-label={words}
        onPointerDown={look}
        onPointerMove={(event) => event.buttons === 1 && look(event)}
      >
        <Nights {...props} height={height} />
        <Marks {...props} />
        {props.children}
        <Acts {...props} height={height} />
        <path class="cut-hour" d={`M${x(afterH)} -4V${height}`} />
        <Ends {...props} height={height} />
        {days && <Days {...props} height={height} />}
      </svg>
    </figure>
  );
}

export function CutLine({
  points,
  x,
  y,
  class: name,
}: {
  points: readonly HourValue[];
  x: Scale;
  y: Scale;
  class: string;
}) {
  return <path class={name} d={linePath(points, x, y)} />;
}

type Drawn = CutFrameProps & { readonly height: number };

function Nights({ startedAtMs, endH, x, height }: Drawn) {
  return nightsOf(startedAtMs, endH).map(({ fromH, toH }) => (
    <rect key={fromH} class="cut-night" x={x(fromH)} y={0} width={x(toH) - x(fromH)} height={height} />
  ));
}

function Marks({ marks, x, endH, y, say }: CutFrameProps) {
  return marks.map((value) => (
    <g key={value}>
      <path class="cut-mark" d={`M${x(0)} ${y(value)}H${x(endH)}`} />
      <text class="cut-text" x={cut.left - 6} y={y(value) + 4} text-anchor="end">
        {say(value)}
      </text>
    </g>
  ));
}

function Acts({ acts, x, height, numbers = false }: Drawn) {
  const hours = acts.map(({ afterH }) => afterH);
  return (
    <>
      {[...new Set(hours)].map((hour) => (
        <path key={hour} class="cut-act" d={`M${x(hour)} ${numbers ? -6 : 0}V${height}`} />
      ))}
      {numbers &&
        numberMarks(hours, x, 26).map((mark) => (
          <text key={mark.words} class="cut-number" x={mark.x} y={-10} text-anchor="middle">
            {mark.words}
          </text>
        ))}
    </>
  );
}

function Ends({ ends = [], width, height }: Drawn) {
  const sorted = [...ends].sort((one, other) => one.y - other.y);
  const rows = spreadRows(
    sorted.map(({ y }) => y),
    15,
    4,
    height - 2,
  );
  return sorted.map(({ words, class: name }, i) => (
    <text key={words} class={`cut-end ${name}`} x={width - cut.right + 7} y={(rows[i] ?? 0) + 4}>
      {words}
    </text>
  ));
}

function Days({ startedAtMs, endH, x, height }: Drawn) {
  const { text } = usePracticeWords();
  const midnights = midnightsOf(startedAtMs, endH);
  const starts = [0, ...midnights];
  return (
    <>
      <path
        class="cut-ground"
        d={`M${x(0)} ${height}H${x(endH)}${midnights.map((at) => `M${x(at)} ${height}v6`).join('')}`}
      />
      {starts.map((fromH, i) => {
        const toH = starts[i + 1] ?? endH;
        return toH - fromH < 9 ? null : (
          <text key={fromH} class="cut-text" x={x((fromH + toH) / 2)} y={height + 17} text-anchor="middle">
            {i === 0 ? text('page-practice.cut.day', { dayNumber: 1 }) : i + 1}
          </text>
        );
      })}
    </>
  );
}
