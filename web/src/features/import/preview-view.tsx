/** What a file would become: each column, the refused rows with their reasons, the first good ones. */
import {
  type ColumnMeaning,
  type ImportAsk,
  type ImportPreview,
  importLimits,
} from '../../../../shared/contracts/import.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { shortName } from '../../ui/format/quantity-words.ts';
import { plainNumber } from '../../ui/format/temperature.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Scrollable } from '../../ui/parts/scrollable.tsx';
import { useSayEntry } from '../journal/say-entry.ts';
import { choiceOf, choicesFor, meaningOf } from './column-choices.ts';
import { renderImport } from './render-import.ts';
import '../../ui/parts/scrollable.css';
import './import.css';
import { useImportWords } from './use-import-words.ts';

interface PreviewViewProps {
  readonly kind: ImportAsk['kind'];
  readonly preview: ImportPreview;
  readonly busy: boolean;
  readonly onColumn: (heading: string, meaning: ColumnMeaning) => void;
  readonly onKeep: () => void;
}

export function PreviewView({ kind, preview, busy, onColumn, onKeep }: PreviewViewProps) {
  const words = useImportWords();
  const { text } = words;
  const reader = useReader();
  const said = useSaid(renderImport);
  const { rows } = preview;
  const at = (instant: string | null | undefined) => (instant ? dayAndTime(Date.parse(instant), reader) : '');
  return (
    <>
      <Part id="comes-to" title={text('page-import.result')}>
        <p class="sentence" role="status">
          {said(preview, 'problem') ||
            text('page-import.result.rows', {
              goodCount: rows.accepted,
              rowCount: rows.total,
              isDated: Boolean(preview.from && preview.to),
              fromText: at(preview.from),
              toText: at(preview.to),
              badCount: rows.refused,
              cellCount: rows.cellsRefused,
            })}
        </p>
        <ul class="columns">
          {preview.columns.map((column) => (
            <li key={column.heading}>
              <div>
                <p class="column-heading">{column.heading}</p>
                <p class="column-examples">{column.examples.join(' · ')}</p>
              </div>
              <div>
                <PickField
                  label={text('page-import.becomes', { headingText: column.heading })}
                  value={choiceOf(column.became)}
                  choices={choicesFor(kind, column.became, words)}
                  onValue={(choice) => onColumn(column.heading, meaningOf(choice, column.became))}
                  hint={said(column, 'says')}
                />
              </div>
            </li>
          ))}
        </ul>
        {preview.problem === null && rows.accepted > 0 && (
          <p>
            <button type="button" class="primary" disabled={busy} onClick={onKeep}>
              {text('page-import.keep', { rowCount: rows.accepted })}
            </button>
          </p>
        )}
      </Part>
      {preview.refused.length > 0 && <RefusedRows preview={preview} />}
      <FirstRows preview={preview} />
    </>
  );
}

function RefusedRows({ preview: { refused, rows } }: { readonly preview: ImportPreview }) {
  const { text, rich } = useImportWords();
  const said = useSaid(renderImport);
  return (
    <Part id="refused-rows" title={text('page-import.refused')}>
      {rows.refused + rows.cellsRefused > refused.length && (
        <p class="hint">
          {text('page-import.refused.first', {
            shownCount: importLimits.refusedShown,
            allCount: rows.refused + rows.cellsRefused,
          })}
        </p>
      )}
      <ol class="refused-rows">
        {refused.map((row) => (
          <li key={`${row.line}-${row.column ?? ''}`}>
            <p>
              {rich('page-import.refused.row', {
                lineText: String(row.line),
                isOfColumn: Boolean(row.column),
                headingText: row.column ?? '',
                reasonText: said(row, 'reason'),
                strong: (inner) => <b>{inner}</b>,
              })}
            </p>
            <code>{row.text}</code>
          </li>
        ))}
      </ol>
    </Part>
  );
}

function FirstRows({ preview: { readings, entries } }: { readonly preview: ImportPreview }) {
  const { text, rich } = useImportWords();
  const reader = useReader();
  const sayEntry = useSayEntry();
  if (readings.length === 0 && entries.length === 0) return null;
  return (
    <Part id="first-rows" title={text('page-import.first')}>
      {readings.length > 0 && (
        <Scrollable label={text('page-import.first.readings')} class="table-scroll">
          <table class="series-table">
            <thead>
              <tr>
                <th scope="col">{text('page-import.first.time')}</th>
                <th scope="col">{text('page-import.probe')}</th>
                <th scope="col">{text('page-import.first.quantity')}</th>
                <th scope="col">{text('page-import.first.value')}</th>
              </tr>
            </thead>
            <tbody>
              {readings.map((reading, index) => (
                <tr key={`${index}-${reading.at}`}>
                  <th scope="row">{dayAndTime(Date.parse(reading.at), reader)}</th>
                  <td>
                    {reading.site}/{reading.probe}
                  </td>
                  <td>{shortName(reading.quantity)}</td>
                  <td>{plainNumber(reading.value, 2)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scrollable>
      )}
      {entries.length > 0 && (
        <ol class="diary">
          {entries.map((entry) => (
            <li key={entry.id}>
              <time dateTime={entry.at}>{dayAndTime(Date.parse(entry.at), reader)}</time>
              <p>
                {rich('page-import.first.entry', {
                  whatText: sayEntry(entry.what),
                  strong: (inner) => <b>{inner}</b>,
                  pileName: entry.pileId,
                })}
                {entry.note && <span class="diary-note">{entry.note}</span>}
              </p>
            </li>
          ))}
        </ol>
      )}
    </Part>
  );
}
