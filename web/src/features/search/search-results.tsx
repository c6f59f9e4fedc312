/** What was found, each kind by itself, with the words made out. */
import type { ComponentChildren } from 'preact';
import type { SearchAnswer } from '../../../../shared/contracts/search.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { capital } from '../../ui/format/words.ts';
import { usePositionNames } from '../../ui/mound/use-position-names.ts';
import { useSayHeld } from '../journal/say-entry.ts';
import { Marked } from './marked.tsx';
import { useSearchWords } from './use-search-words.ts';
import './search.css';

interface ResultsProps {
  readonly answer: SearchAnswer;
  readonly words: readonly string[];
}

export function SearchResults({ answer, words }: ResultsProps) {
  const say = useSayHeld();
  const reader = useReader();
  const positionName = usePositionNames();
  const { text } = useSearchWords();
  const marked = (shown: string) => <Marked text={shown} words={words} />;
  const day = (at: string) => fullDay(Date.parse(at), reader);
  const { piles, batches, entries, probes } = answer;
  return (
    <>
      <Group group="piles" count={piles.count}>
        {piles.found.map(({ id, name, siteName }) => (
          <Line key={id} href={`/piles/${id}`} name={marked(name)} facts={marked(siteName)} />
        ))}
      </Group>
      <Group group="batches" count={batches.count}>
        {batches.found.map(({ id, name, pileName, startedAt, excerpt }) => (
          <Line
            key={id}
            href={`/batches/${id}`}
            name={marked(name)}
            facts={marked(`${pileName}, ${day(startedAt)}`)}
            excerpt={excerpt && marked(excerpt)}
          />
        ))}
      </Group>
      <Group group="entries" count={entries.count}>
        {entries.found.map((entry) => (
          <Line
            key={entry.id}
            href={`/piles/${entry.pileId}/journal`}
            name={marked(say(entry))}
            facts={
              <>
                {marked(entry.pileName)},{' '}
                {text('page-search.entry', {
                  whenText: day(entry.at),
                  isNamed: entry.by !== null,
                  byName: entry.by ?? '',
                })}
              </>
            }
            excerpt={entry.excerpt && marked(entry.excerpt)}
          />
        ))}
      </Group>
      <Group group="other" count={probes.count}>
        {probes.found.map(({ site, siteName, probe, deviceLabel, claim }) => (
          <Line
            key={`${site}/${probe}`}
            href={claim ? `/piles/${claim.pileId}` : '/probes'}
            name={marked(probe)}
            facts={marked(
              [
                deviceLabel,
                claim ? `${claim.pileName}, ${capital(positionName(claim.position))}` : text('page-search.probe.free'),
                siteName,
              ]
                .filter(Boolean)
                .join(', '),
            )}
          />
        ))}
      </Group>
    </>
  );
}

interface GroupProps {
  readonly group: 'piles' | 'batches' | 'entries' | 'other';
  readonly count: number;
  readonly children: ComponentChildren[];
}

function Group({ group, count, children }: GroupProps) {
  const { text } = useSearchWords();
  if (count === 0) return null;
  const id = `found-${group}`;
  return (
    <section class="found" aria-labelledby={id}>
      <h2 id={id}>
        {text('page-search.group', { group })} <span class="found-count">{count}</span>
      </h2>
      <ul>{children}</ul>
      {children.length < count && <p class="quiet">{text('page-search.more', { shownCount: children.length })}</p>}
    </section>
  );
}

interface LineProps {
  readonly href: string;
  readonly name: ComponentChildren;
  readonly facts: ComponentChildren;
  readonly excerpt?: ComponentChildren;
}

function Line({ href, name, facts, excerpt }: LineProps) {
  return (
    <li class="found-line">
      <a href={href}>{name}</a>
      <span class="found-facts">{facts}</span>
      {excerpt && <span>{excerpt}</span>}
    </li>
  );
}
