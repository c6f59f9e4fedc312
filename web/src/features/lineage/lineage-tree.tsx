/** The family drawn from its sources down to the beds: jars, mounds and rows of a bed. */
import type { LineageAnswer, LineageNode } from '../../../../shared/contracts/lineage.ts';
import { Scrollable } from '../../ui/parts/scrollable.tsx';
import { drawLineage, keyOf, type Placed, wrapWords } from './lineage-layout.ts';
import { useLineageWords } from './use-lineage-words.ts';
import './lineage.css';

const cell = { width: 148, height: 132 } as const;
/** Height of a member's mark; its name stands below. */
const markHeight = 34;

const marks: Record<LineageNode['kind'], string> = {
  // A jar with its cloth, a mound, three rows of a bed.
  lot: 'M-11 -24H11M-9 -24V-19Q-14 -16 -14 -10V4Q-14 8 -10 8H10Q14 8 14 4V-10Q14 -16 9 -19V-24',
  batch: 'M-26 8Q-16 -22 0 -22T26 8Z',
  use: 'M-24 6Q-20 -2 -16 6M-16 6Q-8 -6 0 6M0 6Q8 -6 16 6M16 6Q20 -2 24 6M-24 -6V-14M0 -8V-20M24 -6V-14',
};

const linesOf = (node: LineageNode) => wrapWords(node.name, 19, 3);
const leftOf = ({ column }: Placed) => (column + 0.5) * cell.width;
const topOf = ({ row }: Placed) => row * cell.height + 44;

/** Wider where more went over; 1.5 where nobody wrote it down. */
export function flowWidth(massKg: number | null, mostKg: number): number {
  return massKg === null || mostKg <= 0 ? 1.5 : 1.5 + 6 * Math.sqrt(massKg / mostKg);
}

export function LineageTree({ answer }: { readonly answer: LineageAnswer }) {
  const { text } = useLineageWords();
  const { placed, flows, rows, columns } = drawLineage(answer);
  const mostKg = Math.max(0, ...answer.flows.map((flow) => flow.massKg ?? 0));
  const [width, height] = [columns * cell.width, rows * cell.height + 6];
  return (
    <Scrollable label={text('page-lineage.tree')} class="tree-scroll">
      <svg class="tree" width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
        <title>{text('page-lineage.tree.title')}</title>
        {flows.map(({ flow, from, to }) => {
          const [x1, y1, x2, y2] = [
            leftOf(from),
            topOf(from) + 16 + 16 * linesOf(from.node).length,
            leftOf(to),
            topOf(to) - 30,
          ];
          const bend = Math.max(24, (y2 - y1) / 2);
          return (
            <path
              key={flow.id}
              class={`tree-flow tree-flow-${flow.way}`}
              stroke-width={flowWidth(flow.massKg, mostKg)}
              d={`M${x1} ${y1}C${x1} ${y1 + bend} ${x2} ${y2 - bend} ${x2} ${y2}`}
            />
          );
        })}
        {placed.map((one) => (
          <Member
            key={keyOf(one.node)}
            placed={one}
            isStart={answer.start !== null && keyOf(answer.start) === keyOf(one.node)}
          />
        ))}
      </svg>
    </Scrollable>
  );
}

export const memberAddress = (node: Pick<LineageNode, 'kind' | 'id'>) =>
  `/lineage?start=${encodeURIComponent(keyOf(node))}`;

function Member({ placed, isStart }: { readonly placed: Placed; readonly isStart: boolean }) {
  const { node } = placed;
  const names = linesOf(node);
  return (
    <g transform={`translate(${leftOf(placed)} ${topOf(placed)})`}>
      <a
        class={`tree-member tree-${node.kind}${isStart ? ' tree-start' : ''}${node.ending === 'abandoned' ? ' tree-abandoned' : ''}`}
        href={memberAddress(node)}
        aria-current={isStart ? 'true' : undefined}
      >
        <rect
          class="tree-hit"
          x={-cell.width / 2 + 4}
          y={-markHeight}
          width={cell.width - 8}
          height={cell.height - 52}
        />
        <path class="tree-mark" d={marks[node.kind]} />
        <text text-anchor="middle">
          {names.map((line, index) => (
            <tspan key={line} x="0" y={26 + index * 16}>
              {/* The space keeps the words apart for those who hear them. */}
              {index === 0 ? line : ` ${line}`}
            </tspan>
          ))}
        </text>
      </a>
    </g>
  );
}
