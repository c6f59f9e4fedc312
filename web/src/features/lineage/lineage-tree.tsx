/** The family drawn from its sources to the beds: jars, mounds and rows of a bed. */
import type { LineageAnswer, LineageNode } from '../../../../shared/contracts/lineage.ts';
import { Scrollable } from '../../ui/parts/scrollable.tsx';
import { useWidth } from '../../ui/use-width.ts';
import { drawLineage, keyOf, type Placed, wrapWords } from './lineage-layout.ts';
import { useLineageWords } from './use-lineage-words.ts';
import './lineage.css';

/** Below this names are no longer to be read; a family of so many generations is then moved within its frame. */
const leastCellWidth = 68;
/** From the middle of a mark to its side. */
const markReach = 27;
const usualWidth = 1080;
/** Height of a member's mark; its name stands below. */
const markHeight = 34;
const lineHeight = 16;
/** Of a letter of a name, on average [px]. */
const letterWidth = 7;
const mostLines = 4;

const marks: Record<LineageNode['kind'], string> = {
  // A jar with its cloth, a mound, three rows of a bed.
  lot: 'M-11 -24H11M-9 -24V-19Q-14 -16 -14 -10V4Q-14 8 -10 8H10Q14 8 14 4V-10Q14 -16 9 -19V-24',
  batch: 'M-26 8Q-16 -22 0 -22T26 8Z',
  use: 'M-24 6Q-20 -2 -16 6M-16 6Q-8 -6 0 6M0 6Q8 -6 16 6M16 6Q20 -2 24 6M-24 -6V-14M0 -8V-20M24 -6V-14',
};

/** Generations stand beside each other, as there are few of them, and their members below each other. */
interface Cells {
  readonly width: number;
  readonly height: number;
  linesOf(node: LineageNode): string[];
}

export function cellsFor(nodes: readonly LineageNode[], generations: number, width: number): Cells {
  const cellWidth = Math.max(leastCellWidth, Math.floor(width / Math.max(1, generations)));
  const linesOf = ({ name }: LineageNode) => wrapWords(name, Math.floor((cellWidth - 4) / letterWidth), mostLines);
  const lines = Math.max(1, ...nodes.map((node) => linesOf(node).length));
  return { width: cellWidth, height: markHeight + 22 + lineHeight * lines, linesOf };
}

const leftOf = ({ row }: Placed, cells: Cells) => (row + 0.5) * cells.width;
const topOf = ({ column }: Placed, cells: Cells) => column * cells.height + markHeight;

/** Wider where more went over; 1.5 where nobody wrote it down. */
export function flowWidth(massKg: number | null, mostKg: number): number {
  return massKg === null || mostKg <= 0 ? 1.5 : 1.5 + 6 * Math.sqrt(massKg / mostKg);
}

export function LineageTree({ answer }: { readonly answer: LineageAnswer }) {
  const { text } = useLineageWords();
  const { placed, flows, rows, columns } = drawLineage(answer);
  const mostKg = Math.max(0, ...answer.flows.map((flow) => flow.massKg ?? 0));
  const { place, width: room } = useWidth(usualWidth);
  const cells = cellsFor(answer.nodes, rows, room);
  const [width, height] = [rows * cells.width, columns * cells.height];
  return (
    <Scrollable label={text('page-lineage.tree')} class="tree-scroll">
      <div ref={place}>
        <svg class="tree" width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
          <title>{text('page-lineage.tree.title')}</title>
          {flows.map(({ flow, from, to }) => {
            const [x1, y1, x2, y2] = [
              leftOf(from, cells) + markReach,
              topOf(from, cells) - 6,
              leftOf(to, cells) - markReach,
              topOf(to, cells) - 6,
            ];
            const bend = Math.max(12, (x2 - x1) / 2);
            return (
              <path
                key={flow.id}
                class={`tree-flow tree-flow-${flow.way}`}
                stroke-width={flowWidth(flow.massKg, mostKg)}
                d={`M${x1} ${y1}C${x1 + bend} ${y1} ${x2 - bend} ${y2} ${x2} ${y2}`}
              />
            );
          })}
          {placed.map((one) => (
            <Member
              key={keyOf(one.node)}
              placed={one}
              cells={cells}
              isStart={answer.start !== null && keyOf(answer.start) === keyOf(one.node)}
            />
          ))}
        </svg>
      </div>
    </Scrollable>
  );
}

export const memberAddress = (node: Pick<LineageNode, 'kind' | 'id'>) =>
  `/lineage?start=${encodeURIComponent(keyOf(node))}`;

interface MemberProps {
  readonly placed: Placed;
  readonly cells: Cells;
  readonly isStart: boolean;
}

function Member({ placed, cells, isStart }: MemberProps) {
  const { node } = placed;
  const names = cells.linesOf(node);
  return (
    <g transform={`translate(${leftOf(placed, cells)} ${topOf(placed, cells)})`}>
      <a
        class={`tree-member tree-${node.kind}${isStart ? ' tree-start' : ''}${node.ending === 'abandoned' ? ' tree-abandoned' : ''}`}
        href={memberAddress(node)}
        aria-current={isStart ? 'true' : undefined}
      >
        <rect
          class="tree-hit"
          x={-cells.width / 2 + 2}
          y={-markHeight + 3}
          width={cells.width - 4}
          height={cells.height - 8}
        />
        <path class="tree-mark" d={marks[node.kind]} />
        <text text-anchor="middle">
          {names.map((line, index) => (
            <tspan key={line} x="0" y={24 + index * lineHeight}>
              {/* The space keeps the words apart for those who hear them. */}
              {index === 0 ? line : ` ${line}`}
            </tspan>
          ))}
        </text>
      </a>
    </g>
  );
}
