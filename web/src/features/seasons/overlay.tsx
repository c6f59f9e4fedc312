/** Core curves laid over each other, their air beneath on the same days. */
import type { TargetedPointerEvent } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import type { AlignBy } from '../../../../core/seasons/align.ts';
import type { AgedCurve } from '../../../../shared/contracts/seasons.ts';
import { formatTemp, plainNumber, type TempUnit, tempIn, unitSigns } from '../../ui/format/temperature.ts';
import { useWidth } from '../../ui/use-width.ts';
import { type CurveGroup, middleCurve } from './curve-groups.ts';
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
import { useSeasonWords } from './use-season-words.ts';
import './season.css';

export interface OverlayProps {
  readonly curves: readonly AgedCurve[];
  readonly nameOf: (id: string) => string;
  readonly by: AlignBy;
  /** In the order of their styles. */
  readonly broughtOut: readonly string[];
  readonly unit: TempUnit;
  /** Curves of a group have one colour, while none is brought out. */
  readonly groups?: readonly CurveGroup[];
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
  const { text } = useSeasonWords();
  const groups = broughtOut.length > 0 ? [] : (props.groups ?? []);
  const { place, width } = useWidth(960);
  const [under, setUnder] = useState<Nearest | null>(null);
  const drawing = useDrawing(props, width);
  if (!drawing) return <p class="quiet">{text('page-seasons.not-measured')}</p>;
  const { drawn, core, size, air, airSize } = drawing;
  const lines = { curves: drawn, by, broughtOut, groups, under: under?.id };
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
        aria-label={text('page-seasons.over.aloud', { batchCount: drawn.length, by: choiceOf(by) })}
        onPointerMove={point}
        onPointerLeave={() => setUnder(null)}
      >
        <Grid frame={core} size={size} unit={unit} days />
        <Lines {...lines} which="coreC" frame={core} size={size} />
        <Middles curves={drawn} by={by} frame={core} size={size} groups={groups} />
        {under && (
          <circle class="under-point" r="4.5" cx={xOf(under.hour, core, size)} cy={yOf(under.tempC, core, size)} />
        )}
      </svg>
      <p class="overlay-values" aria-live="off">
        {under
          ? text('page-seasons.over.at', {
              batchName: nameOf(under.id),
              tempText: formatTemp(under.tempC, unit),
              dayNumber: Math.round(Math.abs(under.hour) / 2.4) / 10,
              isBefore: under.hour < 0,
              by: choiceOf(by),
            })
          : text('page-seasons.over.point', { unitText: unitSigns[unit], by: choiceOf(by) })}
      </p>
      {air && <AirBelow {...lines} frame={air} size={airSize} unit={unit} />}
      <figcaption class="hint no-print">
        {text('page-seasons.over.beneath')}
        {left > 0 && ` ${text('page-seasons.over.never-warmed', { batchCount: left })}`}
      </figcaption>
      {broughtOut.length > 0 && <Key nameOf={nameOf} broughtOut={broughtOut} />}
      {groups.length > 0 && <GroupKey groups={groups} />}
    </figure>
  );
}

function AirBelow({ unit, ...lines }: Omit<LinesProps, 'which'> & Pick<OverlayProps, 'unit'>) {
  const { text } = useSeasonWords();
  const { frame, size } = lines;
  return (
    <svg viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-label={text('page-seasons.over.air')}>
      <Grid frame={frame} size={size} unit={unit} days={false} />
      <Lines {...lines} which="airC" />
    </svg>
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

function GroupKey({ groups }: { readonly groups: readonly CurveGroup[] }) {
  const { text } = useSeasonWords();
  return (
    <ul class="curve-key">
      {groups.map(({ id, name, ids }, i) => (
        <li key={id}>
          <svg viewBox="0 0 40 8" aria-hidden="true">
            <path class={`curve-line ${curveStyles[i]?.class ?? ''}`} d="M1 4H39" />
          </svg>
          {text('page-seasons.over.group', { groupName: name, batchCount: ids.length })}
        </li>
      ))}
    </ul>
  );
}

type MiddlesProps = Pick<LinesProps, 'curves' | 'by' | 'frame' | 'size' | 'groups'>;

/** The middle of each group, over the curves that it was made of. */
function Middles({ curves, by, frame, size, groups }: MiddlesProps) {
  const middles = useMemo(
    () =>
      groups.map(({ id, ids }) =>
        middleCurve(
          id,
          curves.filter((curve) => ids.includes(curve.id)),
          by,
        ),
      ),
    [groups, curves, by],
  );
  return (
    <g>
      {middles.map(
        (middle, i) =>
          middle && (
            <path
              key={middle.id}
              class={`curve-line curve-middle ${curveStyles[i]?.class ?? ''}`}
              d={pathOf(middle, by, 'coreC', frame, size)}
            />
          ),
      )}
    </g>
  );
}

const choiceOf = (by: AlignBy) => (by === 'age' ? 'age' : 'other');

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
  readonly groups: readonly CurveGroup[];
  readonly under: string | undefined;
}

function Lines({ curves, by, which, frame, size, broughtOut, groups, under }: LinesProps) {
  // Those brought out are drawn last, so that they lie on top.
  const inOrder = useMemo(
    () => [...curves].sort((a, b) => broughtOut.indexOf(a.id) - broughtOut.indexOf(b.id)),
    [curves, broughtOut],
  );
  return (
    <g>
      {inOrder.map((curve) => {
        const style = curveStyles[broughtOut.indexOf(curve.id)];
        const ofGroup = curveStyles[groups.findIndex(({ ids }) => ids.includes(curve.id))];
        const isBehind = broughtOut.length > 0 || groups.length > 0;
        const quiet = ofGroup ? [ofGroup.class, 'curve-of-group'].join(' ') : isBehind ? 'curve-behind' : 'curve-plain';
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
