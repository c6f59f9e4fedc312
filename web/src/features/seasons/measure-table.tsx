/** A row of measures per batch, sorted by any of them, with the grower's own spread beneath. */

import { dispersionOf } from '../../../../core/seasons/dispersion.ts';
import { columnOf } from '../../../../core/seasons/groups.ts';
import { type MeasureKey, measureKeys } from '../../../../core/seasons/measure-keys.ts';
import type { ComparedBatch } from '../../../../shared/contracts/seasons.ts';
import { message, type Say } from '../../../../shared/messages/message.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import type { TempUnit } from '../../ui/format/temperature.ts';
import { warningWords } from '../../ui/format/words.ts';
import { Scrollable } from '../../ui/parts/scrollable.tsx';
import type { SortKey, View } from './address.ts';
import { curveStyles, mostBroughtOut } from './curve-style.ts';
import { cellOf, headingOf, signOf } from './measure-words.ts';
import { useSaySeason, useSeasonWords } from './use-season-words.ts';
import '../../ui/parts/scrollable.css';
import './measure-table.css';

interface MeasureTableProps {
  readonly batches: readonly ComparedBatch[];
  readonly view: Pick<View, 'sort' | 'order'>;
  readonly broughtOut: readonly string[];
  readonly unit: TempUnit;
  readonly onSort: (sort: SortKey, order: View['order']) => void;
  readonly onBringOut: (ids: readonly string[]) => void;
}

export function MeasureTable({ batches, view, broughtOut, unit, onSort, onBringOut }: MeasureTableProps) {
  const columnWords = useSeasonWords();
  const { text } = columnWords;
  return (
    <Scrollable class="table-scroll measure-scroll" label={text('page-seasons.table')}>
      <table class="measure-table">
        <caption>
          <span class="caption-words">{text('page-seasons.table.caption', { batchCount: batches.length })}</span>
        </caption>
        <thead>
          <tr>
            <Heading of="name" words={text('page-seasons.table.batch')} sign={null} view={view} onSort={onSort} />
            <Heading of="startedAt" words={text('page-seasons.table.laid')} sign={null} view={view} onSort={onSort} />
            <Heading of="verdict" words={text('page-seasons.table.verdict')} sign={null} view={view} onSort={onSort} />
            <th scope="col" class="words-cell">
              {text('page-seasons.table.outcome')}
            </th>
            {measureKeys.map((key) => (
              <Heading
                key={key}
                of={key}
                words={headingOf(key, columnWords)}
                sign={signOf(key, unit, columnWords)}
                view={view}
                onSort={onSort}
              />
            ))}
            <th scope="col" class="words-cell">
              {text('page-seasons.table.alarms')}
            </th>
          </tr>
        </thead>
        <tbody>
          {batches.map((batch) => (
            <Row
              key={batch.id}
              batch={batch}
              unit={unit}
              place={broughtOut.indexOf(batch.id)}
              full={broughtOut.length >= mostBroughtOut}
              onBringOut={(out) =>
                onBringOut(out ? [...broughtOut, batch.id] : broughtOut.filter((id) => id !== batch.id))
              }
            />
          ))}
        </tbody>
        <Spreads batches={batches} unit={unit} />
      </table>
    </Scrollable>
  );
}

interface HeadingProps extends Pick<MeasureTableProps, 'view' | 'onSort'> {
  readonly of: SortKey;
  readonly words: string;
  /** Its unit; null where the column holds words. */
  readonly sign: string | null;
}

function Heading({ of, words, sign, view, onSort }: HeadingProps) {
  const isSorted = view.sort === of;
  return (
    <th
      scope="col"
      class={sign === null ? undefined : 'figure'}
      aria-sort={isSorted ? (view.order === 'down' ? 'descending' : 'ascending') : undefined}
    >
      <button type="button" class="sort" onClick={() => onSort(of, isSorted && view.order === 'down' ? 'up' : 'down')}>
        {words}
        {sign && <span class="unit"> {sign}</span>}
        <svg viewBox="0 0 8 12" aria-hidden="true" class={isSorted ? `sort-${view.order}` : 'sort-none'}>
          <path d="M4 1L7 5H1Z" />
          <path d="M4 11L1 7H7Z" />
        </svg>
      </button>
    </th>
  );
}

interface RowProps {
  readonly batch: ComparedBatch;
  readonly unit: TempUnit;
  readonly place: number;
  readonly full: boolean;
  readonly onBringOut: (out: boolean) => void;
}

/** Of a running batch nobody can say yet. */
function verdictCell({ verdict, endedAt }: ComparedBatch, say: Say, notJudged: string): string {
  if (verdict === null) return endedAt === null ? '–' : notJudged;
  return say(message('season.verdict', { verdict: verdict.verdict }));
}

function Row({ batch, unit, place, full, onBringOut }: RowProps) {
  const { text } = useSeasonWords();
  const say = useSaySeason();
  const reader = useReader(batch.site);
  const { measures } = batch;
  return (
    <tr>
      <th scope="row">
        <span class="batch-cell">
          <label class="bring-out">
            <input
              type="checkbox"
              checked={place >= 0}
              disabled={place < 0 && full}
              onChange={(event) => onBringOut(event.currentTarget.checked)}
            />
            <svg viewBox="0 0 24 8" aria-hidden="true">
              {place >= 0 && <path class={`curve-line ${curveStyles[place]?.class ?? ''}`} d="M1 4H23" />}
            </svg>
            <span class="unseen">{text('page-seasons.table.bring-out', { batchName: batch.name })}</span>
          </label>
          <span>
            <a href={`/batches/${encodeURIComponent(batch.id)}/record`}>{batch.name}</a>
            {batch.endedAt === null && (
              <a class="like" href={`/seasons/like/${encodeURIComponent(batch.id)}`}>
                {text('page-seasons.table.like')}
              </a>
            )}
          </span>
        </span>
      </th>
      <td>{fullDay(Date.parse(batch.startedAt), reader)}</td>
      <td>{verdictCell(batch, say, text('page-seasons.table.not-judged'))}</td>
      <td class="words-cell">{batch.outcome ?? (batch.endedAt === null ? text('page-seasons.table.running') : '–')}</td>
      {measureKeys.map((key) => (
        <td key={key} class="figure">
          {cellOf(key, measures[key], unit)}
        </td>
      ))}
      <td class="words-cell">
        {measures.alarms.length === 0
          ? text('page-seasons.table.no-alarm')
          : measures.alarms
              .map(({ kind, count, hours }) =>
                text('page-seasons.table.alarm', {
                  warningText: warningWords(kind),
                  alarmCount: count,
                  hoursText: hours < 10 ? hours.toFixed(1) : String(Math.round(hours)),
                }),
              )
              .join('; ')}
      </td>
    </tr>
  );
}

const spreadRows = ['middle', 'quarter', 'threeQuarter'] as const;

function Spreads({ batches, unit }: { readonly batches: readonly ComparedBatch[]; readonly unit: TempUnit }) {
  const { text } = useSeasonWords();
  if (batches.length < 2) return null;
  const spreads = measureKeys.map((key: MeasureKey) => ({ key, spread: dispersionOf(columnOf(batches, key)) }));
  return (
    <tfoot>
      {spreadRows.map((of) => (
        <tr key={of}>
          <th scope="row">{text(`page-seasons.spread.${of}`)}</th>
          <td />
          <td />
          <td />
          {spreads.map(({ key, spread }) => (
            <td key={key} class="figure">
              {cellOf(key, spread?.[of] ?? null, unit)}
            </td>
          ))}
          <td />
        </tr>
      ))}
    </tfoot>
  );
}
