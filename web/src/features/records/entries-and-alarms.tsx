/** What was written down of the batch, and what it was warned of. */
import { conditionTexts } from '../../../../shared/messages/made/en/condition.ts';
import { message } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { useSaid, useSay } from '../../data/live/use-say.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { Part } from '../../ui/parts/part.tsx';
import { Photo } from '../journal/photo.tsx';
import { useSayWritten } from '../journal/say-entry.ts';
import type { SheetPart } from './sheet-part.ts';
import { useRecordWords } from './use-record-words.ts';
import './records.css';

const renderConditions = rendererOf(conditionTexts);

export function Entries({ sheet: { entries, batch } }: SheetPart) {
  const { text, rich } = useRecordWords(batch.site);
  const sayWritten = useSayWritten();
  return (
    <Part id="acts" title={text('page-records.journal')}>
      {entries.length === 0 && <p class="quiet">{text('page-records.journal.none')}</p>}
      <ol class="diary">
        {entries.map((entry) => (
          <li key={entry.id}>
            <time dateTime={entry.at}>{text('page-records.journal.when', { atWhenMs: Date.parse(entry.at) })}</time>
            <div>
              <p>
                {rich('page-records.journal.entry', {
                  entryText: sayWritten(entry),
                  b: (inner) => <b>{inner}</b>,
                  isNamed: entry.by !== null,
                  personName: entry.by ?? '',
                  isCorrected: entry.corrected,
                  quiet: (inner) => <span class="quiet">{inner}</span>,
                })}
                {entry.note && <span class="diary-note">{entry.note}</span>}
              </p>
              {entry.photoIds.length > 0 && (
                <ul class="photos">
                  {entry.photoIds.map((id, index) => (
                    <li key={id}>
                      <Photo
                        id={id}
                        alt={text('page-records.journal.photo', {
                          photoCount: index + 1,
                          entryText: sayWritten(entry),
                        })}
                      />
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

export function Alarms({ sheet: { alarms, batch } }: SheetPart) {
  const { text, rich } = useRecordWords(batch.site);
  const said = useSaid(renderPile, batch.site);
  const say = useSay(renderConditions);
  return (
    <Part id="alarms" title={text('page-records.warnings')}>
      {alarms.length === 0 && <p class="quiet">{text('page-records.warnings.none')}</p>}
      <ol class="diary">
        {alarms.map((alarm) => (
          <li key={alarm.id}>
            <time dateTime={alarm.since}>
              {text('page-records.journal.when', { atWhenMs: Date.parse(alarm.since) })}
            </time>
            <p>
              {rich('page-records.warnings.one', {
                warningName: say(message(`condition.${alarm.kind}.name`)),
                b: (inner) => <b>{inner}</b>,
                seenText: said(alarm, 'seen'),
              })}
            </p>
          </li>
        ))}
      </ol>
    </Part>
  );
}
