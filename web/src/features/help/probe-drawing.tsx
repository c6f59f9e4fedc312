/** Where the tip of each probe goes, and its cable: the same places as in the drawing of a pile. */
import type { Position } from '../../../../shared/names.ts';
import { Ground } from '../../ui/mound/ground.tsx';
import { probePoint } from '../../ui/mound/mound-layout.ts';
import { drawing, moundShape, type Point, pathOf, skinYAt } from '../../ui/mound/mound-shape.ts';
import { useHelp } from './help-texts.tsx';
import './help-drawings.css';

const shape = moundShape(0.3, 'help');
const { groundY, width } = { groundY: drawing.groundY, width: 272 };
const topY = Math.min(...shape.skin.map(({ y }) => y));
/** Where the stem of each ends, outside of the bed. */
const ends: Readonly<Record<Exclude<Position, 'air'>, Point>> = {
  core: { x: 212, y: 74 },
  top: { x: 206, y: 62 },
  base: { x: 230, y: 130 },
  edge: { x: 226, y: 104 },
};
const box = { x: 246, y: 92 } as const;

interface DrawingProps {
  readonly words: string;
}

export function ProbeDrawing({ position, words }: DrawingProps & { readonly position: Position }) {
  return (
    <Bed words={words}>
      {position === 'air' ? <AirProbe /> : <InBed position={position} />}
      <path class="help-stake" d={`M${box.x + 8} ${groundY}V${box.y + 14}`} />
      <rect class="help-box" x={box.x} y={box.y} width="16" height="14" rx="1.5" />
    </Bed>
  );
}

/** A thermometer on a long stem, read where it stands. */
export function HandDrawing({ words }: DrawingProps) {
  const tip = probePoint(shape, 'core');
  const dial = { x: 222, y: 66 };
  return (
    <Bed words={words}>
      <path class="help-rod" d={`M${tip.x} ${tip.y}L${dial.x - 11} ${dial.y + 4}`} />
      <circle class="help-tip" cx={tip.x} cy={tip.y} r="4" />
      <circle class="help-box" cx={dial.x} cy={dial.y} r="13" />
      <path
        class="help-thin"
        d={`M${dial.x} ${dial.y}l5 -8M${dial.x - 9} ${dial.y}h2M${dial.x + 7} ${dial.y}h2M${dial.x} ${dial.y - 9}v2`}
      />
      <Depth x={tip.x} tipY={tip.y} toY={groundY} label="½" />
    </Bed>
  );
}

function Bed({ words, children }: DrawingProps & { readonly children: preact.ComponentChildren }) {
  return (
    <svg class="help-svg" viewBox={`0 ${topY - 26} ${width} ${groundY + 14 - topY + 26}`} role="img" aria-label={words}>
      <Ground />
      <g class="mound-ground">
        <path d={`M229 ${groundY}H${width - 4}`} />
      </g>
      <path class="mound-bare" d={`${pathOf(shape.skin)}Z`} />
      <path class="mound-skin" d={pathOf(shape.skin)} />
      {children}
    </svg>
  );
}

function InBed({ position }: { readonly position: Exclude<Position, 'air'> }) {
  const { text } = useHelp();
  const tip = position === 'core' ? shape.focus : probePoint(shape, position);
  const end = ends[position];
  return (
    <>
      <path class="help-rod" d={`M${tip.x} ${tip.y}L${end.x} ${end.y}`} />
      <Cable from={end} />
      <circle class="help-tip" cx={tip.x} cy={tip.y} r="4" />
      {position === 'core' && <Depth x={tip.x} tipY={tip.y} toY={groundY} label="½" />}
      {position === 'top' && (
        <Depth
          x={tip.x}
          tipY={tip.y}
          toY={skinYAt(shape, tip.x) ?? topY}
          label={text('page-help.probes.measure.place')}
        />
      )}
      {position === 'base' && (
        <Depth x={tip.x} tipY={tip.y} toY={groundY} label={text('page-help.probes.measure.place')} />
      )}
      {position === 'edge' && <FromSide tip={tip} label={text('page-help.probes.measure.edge')} />}
    </>
  );
}

/** Down into a loop, and up to its box. */
function Cable({ from }: { readonly from: Point }) {
  const lowY = groundY - 7;
  return (
    <path
      class="help-cable"
      d={`M${from.x} ${from.y}C${from.x + 10} ${from.y} ${box.x - 16} ${lowY} ${box.x - 8} ${lowY}S${box.x + 1} ${box.y + 24} ${box.x + 3} ${box.y + 14}`}
    />
  );
}

function AirProbe() {
  const [x, tipY] = [226, topY + 16];
  return (
    <>
      <path class="help-stake" d={`M${x} ${groundY}V${topY - 8}`} />
      <path class="help-roof" d={`M${x - 20} ${topY + 2}L${x} ${topY - 12}L${x + 20} ${topY + 2}`} />
      <path class="help-cable" d={`M${x} ${topY - 2}L${x - 9} ${topY + 4}V${tipY}`} />
      <circle class="help-tip" cx={x - 9} cy={tipY + 3} r="4" />
      <path
        class="help-cable"
        d={`M${x} ${topY + 34}C${x + 6} ${topY + 60} ${x + 8} ${groundY - 7} ${x + 14} ${groundY - 7}S${box.x + 1} ${box.y + 24} ${box.x + 3} ${box.y + 14}`}
      />
    </>
  );
}

interface DepthProps {
  readonly x: number;
  readonly tipY: number;
  readonly toY: number;
  readonly label: string;
}

/** How far from the tip to the surface or the ground; its number stands to the left, where no stem is. */
function Depth({ x, tipY, toY, label }: DepthProps) {
  const at = x - 14;
  const isTight = Math.abs(toY - tipY) < 20;
  const labelY = isTight ? (toY < tipY ? tipY + 14 : tipY - 8) : (tipY + toY) / 2 + 4;
  return (
    <>
      <path class="help-thin" d={`M${at - 4} ${tipY}h8M${at - 4} ${toY}h8M${at} ${tipY}V${toY}`} />
      <text class="help-number" x={at - 7} y={labelY} text-anchor="end">
        {label}
      </text>
    </>
  );
}

function FromSide({ tip, label }: { readonly tip: Point; readonly label: string }) {
  const skin = shape.skin.find(({ x, y }) => x > tip.x && y >= tip.y) ?? tip;
  const y = tip.y + 12;
  return (
    <>
      <path class="help-thin" d={`M${tip.x} ${y - 4}v8M${skin.x} ${y - 4}v8M${tip.x} ${y}H${skin.x}`} />
      <text class="help-number" x={tip.x - 5} y={y + 4} text-anchor="end">
        {label}
      </text>
    </>
  );
}
