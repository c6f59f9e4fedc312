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
import { counted } from '../../ui/format/words.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Scrollable } from '../../ui/parts/scrollable.tsx';
import { useSayEntry } from '../journal/say-entry.ts';
import { choiceOf, choicesFor, meaningOf } from './column-choices.ts';
import { renderImport } from './render-import.ts';
import '../../ui/parts/scrollable.css';
import './import.css';

interface PreviewViewProps {
  readonly kind: ImportAsk['kind'];
  readonly preview: ImportPreview;
  readonly busy: boolean;
  readonly onColumn: (heading: string, meaning: ColumnMeaning) => void;
  readonly onKeep: () => void;
}

export function PreviewView({ kind, preview, busy, onColumn, onKeep }: PreviewViewProps) {
  const reader = useReader();
  const said = useSaid(renderImport);
  const { rows } = preview;
  const span =
    preview.from && preview.to
      ? `, from ${dayAndTime(Date.parse(preview.from), reader)} to ${dayAndTime(Date.parse(preview.to), reader)}`
      : '';
  return (
    <>
      <Part id="comes-to" title="What it comes to">
        <p class="sentence" role="status">
          {said(preview, 'problem') ||
            `${rows.accepted} of ${counted(rows.total, 'row')} can be kept${span}${rows.refused > 0 ? `; ${rows.refused} cannot` : ''}${rows.cellsRefused > 0 ? `; ${counted(rows.cellsRefused, 'cell')} of the others cannot` : ''}.`}
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
                  label={`“${column.heading}” becomes`}
                  value={choiceOf(column.became)}
                  choices={choicesFor(kind, column.became)}
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
              Keep {counted(rows.accepted, 'row')}
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
  const said = useSaid(renderImport);
  return (
    <Part id="refused-rows" title="What cannot be kept">
      {rows.refused + rows.cellsRefused > refused.length && (
        <p class="hint">
          The first {importLimits.refusedShown} of {rows.refused + rows.cellsRefused}.
        </p>
      )}
      <ol class="refused-rows">
        {refused.map((row) => (
          <li key={`${row.line}-${row.column ?? ''}`}>
            <p>
              Line {row.line}
              {row.column && `, “${row.column}”`}: <b>{said(row, 'reason')}</b>
            </p>
            <code>{row.text}</code>
          </li>
        ))}
      </ol>
    </Part>
  );
}

function FirstRows({ preview: { readings, entries } }: { readonly preview: ImportPreview }) {
  const reader = useReader();
  const sayEntry = useSayEntry();
  if (readings.length === 0 && entries.length === 0) return null;
  return (
    <Part id="first-rows" title="The first of them">
      {readings.length > 0 && (
        <Scrollable label="First readings" class="table-scroll">
          <table class="series-table">
            <thead>
              <tr>
                <th scope="col">Time</th>
                <th scope="col">Probe</th>
                <th scope="col">Measured</th>
                <th scope="col">Value</th>
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
                <b>{sayEntry(entry.what)}</b>, on {entry.pileId}
                {entry.note && <span class="diary-note">{entry.note}</span>}
              </p>
            </li>
          ))}
        </ol>
      )}
    </Part>
  );
}
