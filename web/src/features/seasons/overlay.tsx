/** Core curves laid over each other, their air beneath on the same days. */
import type { TargetedPointerEvent } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import type { AlignBy } from '../../../../core/seasons/align.ts';
import type { AgedCurve } from '../../../../shared/contracts/seasons.ts';
import { formatTemp, plainNumber, type TempUnit, tempIn, unitSigns } from '../../ui/format/temperature.ts';
import { counted } from '../../ui/format/words.ts';
import { useWidth } from '../../ui/use-width.ts';
import { curveStyles } from './curve-style.ts';
import {
  dayMarks,
  type Frame,
  frameOf,
  type Nearest,
  nearestTo,
  pathOf,
  type Size,
  tens,
  xOf,
  yOf,
} from './overlay-shape.ts';
import './season.css';

export interface OverlayProps {
  readonly curves: readonly AgedCurve[];
  readonly nameOf: (id: string) => string;
  readonly by: AlignBy;
  /** In the order of their styles. */
  readonly broughtOut: readonly string[];
  readonly unit: TempUnit;
}

/** What is drawn, on which scales; null where no core was measured. */
function useDrawing({ curves, by }: OverlayProps, width: number) {
  const drawn = useMemo(() => curves.filter((curve) => by === 'age' || curve.warmingAfterH !== null), [curves, by]);
  const core = useMemo(() => frameOf(drawn, by, 'coreC'), [drawn, by]);
  const airOwn = useMemo(() => frameOf(drawn, by, 'airC'), [drawn, by]);
  if (!core) return null;
  const size: Size = {
    width,
    height: Math.min(420, Math.max(260, width * 0.42)),
    left: 38,
    right: 8,
    top: 10,
    bottom: 26,
  };
  const airSize: Size = { ...size, height: 104, top: 6, bottom: 8 };
  // Both stand on the same days.
  const air = airOwn && { ...airOwn, fromH: core.fromH, toH: core.toH };
  return { drawn, core, size, air, airSize };
}

export function Overlay(props: OverlayProps) {
  const { curves, nameOf, by, broughtOut, unit } = props;
  const { place, width } = useWidth(960);
  const [under, setUnder] = useState<Nearest | null>(null);
  const drawing = useDrawing(props, width);
  if (!drawing) return <p class="quiet">No probe measured the core of these batches.</p>;
  const { drawn, core, size, air, airSize } = drawing;
  const left = curves.length - drawn.length;
  const point = (event: TargetedPointerEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const scale = size.width / box.width;
    setUnder(nearestTo(drawn, by, core, size, (event.clientX - box.left) * scale, (event.clientY - box.top) * scale));
  };
  return (
    <figure class="overlay" ref={place}>
      <svg
        viewBox={`0 0 ${size.width} ${size.height}`}
        role="img"
        aria-label={`Cores of ${counted(drawn.length, 'batch', 'batches')} laid over each other by ${byWords[by]}; the table below has their figures.`}
        onPointerMove={point}
        onPointerLeave={() => setUnder(null)}
      >
        <Grid frame={core} size={size} unit={unit} days />
        <Lines
          curves={drawn}
          by={by}
          which="coreC"
          frame={core}
          size={size}
          broughtOut={broughtOut}
          under={under?.id}
        />
        {under && (
          <circle class="under-point" r="4.5" cx={xOf(under.hour, core, size)} cy={yOf(under.tempC, core, size)} />
        )}
      </svg>
      <p class="overlay-told" aria-live="off">
        {under
          ? `${nameOf(under.id)}: ${formatTemp(under.tempC, unit)} ${sinceWords(under.hour, by)}`
          : `Core in ${unitSigns[unit]} by days ${by === 'age' ? 'since it was laid' : 'since warming began'}. Point at a line to read it.`}
      </p>
      {air && (
        <svg
          viewBox={`0 0 ${airSize.width} ${airSize.height}`}
          role="img"
          aria-label="The air beside them, by the same days"
        >
          <Grid frame={air} size={airSize} unit={unit} days={false} />
          <Lines
            curves={drawn}
            by={by}
            which="airC"
            frame={air}
            size={airSize}
            broughtOut={broughtOut}
            under={under?.id}
          />
        </svg>
      )}
      <figcaption class="hint no-print">
        Beneath: the air, on the same days.
        {left > 0 &&
          ` ${counted(left, 'batch', 'batches')} never warmed and so ${left === 1 ? 'has' : 'have'} no place here.`}
      </figcaption>
      {broughtOut.length > 0 && <Key nameOf={nameOf} broughtOut={broughtOut} />}
    </figure>
  );
}

function Key({ nameOf, broughtOut }: Pick<OverlayProps, 'nameOf' | 'broughtOut'>) {
  return (
    <ul class="curve-key">
      {broughtOut.map((id, i) => (
        <li key={id}>
          <svg viewBox="0 0 40 8" aria-hidden="true">
            <path class={`curve-line ${curveStyles[i]?.class ?? ''}`} d="M1 4H39" />
          </svg>
          {nameOf(id)}
        </li>
      ))}
    </ul>
  );
}

const byWords: Record<AlignBy, string> = { age: 'age', warming: 'the time since warming began' };

function sinceWords(hour: number, by: AlignBy): string {
  const days = plainNumber(Math.abs(hour) / 24, 1);
  const zero = by === 'age' ? 'it was laid' : 'warming began';
  return `${days} days ${hour < 0 ? 'before' : 'after'} ${zero}`;
}

function Grid({ frame, size, unit, days }: { frame: Frame; size: Size; unit: TempUnit; days: boolean }) {
  const marks = dayMarks(frame, size.width - size.left - size.right);
  return (
    <g>
      {tens(frame).map((tempC) => (
        <g key={tempC}>
          <path class="curve-grid" d={`M${size.left} ${yOf(tempC, frame, size)}H${size.width - size.right}`} />
          <text class="curve-tick" x={size.left - 6} y={yOf(tempC, frame, size) + 4} text-anchor="end">
            {plainNumber(tempIn(unit, tempC), 0)}
          </text>
        </g>
      ))}
      {marks.map((day) => (
        <g key={day}>
          <path class="curve-grid" d={`M${xOf(day * 24, frame, size)} ${size.height - size.bottom}v${days ? 6 : -3}`} />
          {days && (
            <text class="curve-tick" x={xOf(day * 24, frame, size)} y={size.height - 6} text-anchor="middle">
              {plainNumber(day, 0)}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

interface LinesProps {
  readonly curves: readonly AgedCurve[];
  readonly by: AlignBy;
  readonly which: 'coreC' | 'airC';
  readonly frame: Frame;
  readonly size: Size;
  readonly broughtOut: readonly string[];
  readonly under: string | undefined;
}

function Lines({ curves, by, which, frame, size, broughtOut, under }: LinesProps) {
  // Those brought out are drawn last, so that they lie on top.
  const inOrder = useMemo(
    () => [...curves].sort((a, b) => broughtOut.indexOf(a.id) - broughtOut.indexOf(b.id)),
    [curves, broughtOut],
  );
  return (
    <g>
      {inOrder.map((curve) => {
        const style = curveStyles[broughtOut.indexOf(curve.id)];
        const quiet = broughtOut.length > 0 ? 'curve-behind' : 'curve-plain';
        return (
          <path
            key={curve.id}
            class={`curve-line ${style?.class ?? quiet}${curve.id === under ? ' curve-under' : ''}`}
            d={pathOf(curve, by, which, frame, size)}
          />
        );
      })}
    </g>
  );
}
