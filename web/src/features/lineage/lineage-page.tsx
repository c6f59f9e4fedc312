/** A family walked both ways: where a batch came from, which beds got what came from a wood. */
import { useRoute } from 'preact-iso';
import type { LineageAnswer, LineageNode } from '../../../../shared/contracts/lineage.ts';
import { reasonOf } from '../../data/client.ts';
import { saidNow } from '../../data/said-now.ts';
import { useQuery } from '../../data/use-query.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { getLineage } from './lineage-api.ts';
import { keyOf } from './lineage-layout.ts';
import { FamilyLine, LineageList, sideOf } from './lineage-list.tsx';
import { LineageTree } from './lineage-tree.tsx';
import { useLineageWords } from './use-lineage-words.ts';
import './lineage.css';

export function LineagePage() {
  const { text, rich } = useLineageWords();
  const { query } = useRoute();
  const start = query.start;
  const { value, error } = useQuery(`lineage ${start ?? ''}`, () => getLineage({ start, way: 'both' }));
  const member = value?.start && value.nodes.find((node) => value.start && keyOf(node) === keyOf(value.start));
  const title = member ? text('page-lineage.title.of', { memberName: member.name }) : text('page-lineage.title');
  const heading = usePage(title);
  return (
    <div class="page">
      <div class="opening">
        <p class="dateline">
          {start ? (
            <a href="/lineage">{text('page-lineage.title')}</a>
          ) : (
            <a href="/batches">{text('page-lineage.batches')}</a>
          )}
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {error !== undefined && <p class="lead">{reasonOf(error)}</p>}
        {member && value && <MemberFacts member={member} answer={value} />}
      </div>
      {value &&
        (value.nodes.length === 0 ? (
          <p class="lead">
            {text('page-lineage.none')}{' '}
            <May to="keeper">{rich('page-lineage.none.begin', { link: (inner) => <a href="/lots">{inner}</a> })}</May>
          </p>
        ) : (
          <Family answer={value} />
        ))}
    </div>
  );
}

function MemberFacts({ member, answer }: { readonly member: LineageNode; readonly answer: LineageAnswer }) {
  const { text } = useLineageWords();
  const beds = sideOf(answer, 'down').filter((node) => node.kind === 'use');
  const own =
    member.kind === 'batch' ? `/batches/${member.id}` : member.kind === 'lot' ? `/lots/${member.id}` : undefined;
  return (
    <>
      <p class="sentence">
        {text('page-lineage.member', {
          saysText: saidNow(member.says),
          isUse: member.kind === 'use',
          bedCount: beds.length,
        })}
      </p>
      {own && (
        <p>
          <a href={own}>{text('page-lineage.open', { kind: member.kind === 'batch' ? 'batch' : 'other' })}</a>
        </p>
      )}
    </>
  );
}

function Family({ answer }: { readonly answer: LineageAnswer }) {
  const { text } = useLineageWords();
  return (
    <>
      <LineageTree answer={answer} />
      {answer.start ? (
        <>
          <Part id="came-from" title={text('page-lineage.came-from')}>
            <LineageList answer={answer} way="up" />
          </Part>
          <Part id="went-to" title={text('page-lineage.went-to')}>
            <LineageList answer={answer} way="down" />
          </Part>
        </>
      ) : (
        <Part id="everything" title={text('page-lineage.everything')}>
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
