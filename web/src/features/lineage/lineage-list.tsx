/** The family as a list, for those who cannot see the drawing or would rather read. */
import type { LineageAnswer, LineageNode } from '../../../../shared/contracts/lineage.ts';
import { saidNow } from '../../data/said-now.ts';
import { plainNumber } from '../../ui/format/temperature.ts';
import { keyOf } from './lineage-layout.ts';
import { memberAddress } from './lineage-tree.tsx';
import { useLineageWords } from './use-lineage-words.ts';
import './lineage.css';

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
  const { text } = useLineageWords();
  const side = sideOf(answer, way);
  if (side.length === 0) {
    const none = way === 'up' ? text('page-lineage.came-from.none') : text('page-lineage.went-to.none');
    return <p class="quiet">{none}</p>;
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
  const { text } = useLineageWords();
  const { share } = node;
  const says = saidNow(node.says);
  return (
    <li>
      <p>
        <span class="label">{text('page-lineage.kind', { kind: node.kind })}</span>{' '}
        <a href={memberAddress(node)}>{node.name}</a>
        <span class="origin">
          {share === null || node.step <= 0
            ? says
            : text('page-lineage.share', {
                saysText: says,
                shareText: `${plainNumber(share * 100, share < 0.1 ? 1 : 0)}\u00a0%`,
              })}
        </span>
      </p>
    </li>
  );
}
