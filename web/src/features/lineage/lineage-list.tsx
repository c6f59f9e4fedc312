/** The family as a list, for those who cannot see the drawing or would rather read. */
import type { LineageAnswer, LineageNode } from '../../../../shared/contracts/lineage.ts';
import { plainNumber } from '../../ui/format/temperature.ts';
import { keyOf } from './lineage-layout.ts';
import { memberAddress } from './lineage-tree.tsx';
import './lineage.css';

const kindNames: Record<LineageNode['kind'], string> = { lot: 'Lot', batch: 'Batch', use: 'Use' };

interface LineageListProps {
  readonly answer: LineageAnswer;
  /** One side of the start, or all of it. */
  readonly way: 'up' | 'down';
}

/** Those on one side of the start, nearest first. */
export function sideOf(answer: LineageAnswer, way: 'up' | 'down'): LineageNode[] {
  const start = answer.start && keyOf(answer.start);
  return answer.nodes
    .filter((node) => keyOf(node) !== start && (way === 'up' ? node.step < 0 : node.step > 0))
    .sort((one, other) => Math.abs(one.step) - Math.abs(other.step) || one.at.localeCompare(other.at));
}

export function LineageList({ answer, way }: LineageListProps) {
  const side = sideOf(answer, way);
  if (side.length === 0) {
    return (
      <p class="quiet">{way === 'up' ? 'Nothing is known of where it came from.' : 'It has not gone anywhere yet.'}</p>
    );
  }
  return (
    <ol class="family-list">
      {side.map((node) => (
        <FamilyLine key={keyOf(node)} node={node} />
      ))}
    </ol>
  );
}

export function FamilyLine({ node }: { readonly node: LineageNode }) {
  return (
    <li>
      <p>
        <span class="label">{kindNames[node.kind]}</span> <a href={memberAddress(node)}>{node.name}</a>
        <span class="origin">
          {node.says}
          {node.share !== null &&
            node.step > 0 &&
            `; ${plainNumber(node.share * 100, node.share < 0.1 ? 1 : 0)}\u00a0% of it`}
        </span>
      </p>
    </li>
  );
}
