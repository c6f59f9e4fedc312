/** A family walked both ways: where a batch came from, which beds got what came from a wood. */
import { useRoute } from 'preact-iso';
import type { LineageAnswer, LineageNode } from '../../../../shared/contracts/lineage.ts';
import { reasonOf } from '../../data/client.ts';
import { useQuery } from '../../data/use-query.ts';
import { counted } from '../../ui/format/words.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { getLineage } from './lineage-api.ts';
import { keyOf } from './lineage-layout.ts';
import { FamilyLine, LineageList, sideOf } from './lineage-list.tsx';
import { LineageTree } from './lineage-tree.tsx';
import './lineage.css';

export function LineagePage() {
  const { query } = useRoute();
  const start = query.start;
  const { value, error } = useQuery(`lineage ${start ?? ''}`, () => getLineage({ start, way: 'both' }));
  const member = value?.start && value.nodes.find((node) => value.start && keyOf(node) === keyOf(value.start));
  const title = member ? `The family of ${member.name}` : 'The farm’s family tree';
  const heading = usePage(title);
  return (
    <div class="page">
      <div class="opening">
        <p class="dateline">{start ? <a href="/lineage">The farm’s family tree</a> : <a href="/batches">Batches</a>}</p>
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {error !== undefined && <p class="lead">{reasonOf(error)}</p>}
        {member && value && <MemberFacts member={member} answer={value} />}
      </div>
      {value &&
        (value.nodes.length === 0 ? (
          <p class="lead">
            Nothing is written down yet.{' '}
            <May to="keeper">
              <a href="/lots">Begin with a starter</a>: from then on it can be followed to every bed.
            </May>
          </p>
        ) : (
          <Family answer={value} />
        ))}
    </div>
  );
}

function MemberFacts({ member, answer }: { readonly member: LineageNode; readonly answer: LineageAnswer }) {
  const beds = sideOf(answer, 'down').filter((node) => node.kind === 'use');
  const own =
    member.kind === 'batch' ? `/batches/${member.id}` : member.kind === 'lot' ? `/lots/${member.id}` : undefined;
  return (
    <>
      <p class="sentence">
        {member.says}
        {member.kind !== 'use' &&
          (beds.length === 0 ? '; no bed has it yet.' : `; ${counted(beds.length, 'place has', 'places have')} it.`)}
      </p>
      {own && (
        <p>
          <a href={own}>{member.kind === 'batch' ? 'Open the batch' : 'Open the lot'}</a>
        </p>
      )}
    </>
  );
}

function Family({ answer }: { readonly answer: LineageAnswer }) {
  return (
    <>
      <LineageTree answer={answer} />
      {answer.start ? (
        <>
          <Part id="came-from" title="Where it came from">
            <LineageList answer={answer} way="up" />
          </Part>
          <Part id="went-to" title="Where it went">
            <LineageList answer={answer} way="down" />
          </Part>
        </>
      ) : (
        <Part id="everything" title="Everything, by date">
          <ol class="family-list">
            {[...answer.nodes]
              .sort((one, other) => one.at.localeCompare(other.at))
              .map((node) => (
                <FamilyLine key={keyOf(node)} node={node} />
              ))}
          </ol>
        </Part>
      )}
    </>
  );
}
