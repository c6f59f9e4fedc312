/** What was written down of the batch, and what it was warned of. */
import { useSaid } from '../../data/live/use-say.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { warningNames } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { Photo } from '../journal/photo.tsx';
import { useSayWritten } from '../journal/say-entry.ts';
import { instantWords, type SheetPart } from './sheet-part.ts';
import './records.css';

export function Entries({ sheet: { entries }, reader }: SheetPart) {
  const sayWritten = useSayWritten();
  return (
    <Part id="acts" title="Journal">
      {entries.length === 0 && <p class="quiet">Nothing was written down.</p>}
      <ol class="diary">
        {entries.map((entry) => (
          <li key={entry.id}>
            <time dateTime={entry.at}>{instantWords(entry.at, reader)}</time>
            <div>
              <p>
                <b>{sayWritten(entry)}</b>
                {entry.by && <span class="quiet"> by {entry.by}</span>}
                {entry.corrected && <span class="quiet"> (corrected)</span>}
                {entry.note && <span class="diary-note">{entry.note}</span>}
              </p>
              {entry.photoIds.length > 0 && (
                <ul class="photos">
                  {entry.photoIds.map((id, index) => (
                    <li key={id}>
                      <Photo id={id} alt={`Photo ${index + 1} of ${sayWritten(entry)}`} />
                    </li>
                  ))}
                </ul>
              )}
            </div>
          </li>
        ))}
      </ol>
    </Part>
  );
}

export function Alarms({ sheet: { alarms }, reader }: SheetPart) {
  const said = useSaid(renderPile);
  return (
    <Part id="alarms" title="Warnings">
      {alarms.length === 0 && <p class="quiet">None was raised.</p>}
      <ol class="diary">
        {alarms.map((alarm) => (
          <li key={alarm.id}>
            <time dateTime={alarm.since}>{instantWords(alarm.since, reader)}</time>
            <p>
              <b>{warningNames[alarm.kind]}</b> {said(alarm, 'seen')}
            </p>
          </li>
        ))}
      </ol>
    </Part>
  );
}
