/** How long it was how hot, and what composting rules ask beside that. */
import type { Temperature } from '../../../../shared/messages/message.ts';
import { useSay } from '../../data/live/use-say.ts';
import { Part } from '../../ui/parts/part.tsx';
import { Scrollable } from '../../ui/parts/scrollable.tsx';
import { renderPhase } from '../pile/phase-words.ts';
import { renderRules, type SheetPart } from './sheet-part.ts';
import { useRecordWords } from './use-record-words.ts';
import './records.css';

/** As far as a record goes: three minutes. */
const toTenths = (hours: number) => Math.round(hours * 10) / 10;

const oneDecimal = (valueC: number): Temperature => ({ valueC, decimals: 1 });
const whole = (valueC: number): Temperature => ({ valueC, decimals: 0 });

export function TimeTemperature({ sheet }: SheetPart) {
  const { timeTemperature: log, batch } = sheet;
  const { text } = useRecordWords(batch.site);
  return (
    <Part id="time-temperature" title={text('page-records.time')}>
      <p>
        {text('page-records.time.says', {
          position: log.position ?? 'other',
          measuredHours: toTenths(log.measuredH),
          unmeasuredHours: toTenths(log.unmeasuredH),
          turnCount: log.turns,
        })}{' '}
        {log.highestC !== null &&
          text('page-records.time.highest', {
            highestC: oneDecimal(log.highestC),
            hasTime: log.highestAt !== null,
            highestWhenMs: Date.parse(log.highestAt ?? batch.startedAt),
          })}
      </p>
      <PlacesHeat sheet={sheet} />
      <HoursAtLeast sheet={sheet} />
      {log.rules.length > 0 && <Rules sheet={sheet} />}
    </Part>
  );
}

function HoursAtLeast({ sheet: { timeTemperature } }: SheetPart) {
  const { text } = useRecordWords();
  const hours = (h: number) => text('page-records.time.hours', { spanHours: toTenths(h) });
  return (
    <table class="record-hours">
      <caption>{text('page-records.time.at-least')}</caption>
      <thead>
        <tr>
          <th scope="col">{text('page-records.time.temperature')}</th>
          <th scope="col">{text('page-records.time.in-all')}</th>
          <th scope="col">{text('page-records.time.longest')}</th>
        </tr>
      </thead>
      <tbody>
        {timeTemperature.hoursAtLeast.map((row) => (
          <tr key={row.tempC}>
            <th scope="row">{text('page-records.time.degrees', { tempC: whole(row.tempC) })}</th>
            <td>{hours(row.totalH)}</td>
            <td>{hours(row.longestRunH)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Rules({ sheet: { timeTemperature } }: SheetPart) {
  const { text, rich } = useRecordWords();
  const say = useSay(renderRules);
  return (
    <>
      <h3 class="sub-head">{text('page-records.rules')}</h3>
      <dl class="rules">
        {timeTemperature.rules.map(({ standing, messages: { rule, source, asks, measured } }) => (
          <div key={rule.code}>
            <dt>{say(rule)}</dt>
            <dd>
              <p>
                {text('page-records.rules.asks', { asksText: say(asks) })}
                <br />
                {rich('page-records.rules.measured', { measuredText: say(measured), b: (inner) => <b>{inner}</b> })}
              </p>
              <span class="origin">
                {text('page-records.rules.source', {
                  sourceText: say(source),
                  isFromMemory: standing === 'from memory',
                })}
              </span>
            </dd>
          </div>
        ))}
      </dl>
    </>
  );
}

function PlacesHeat({ sheet: { pastHeat, batch } }: SheetPart) {
  const { text } = useRecordWords(batch.site);
  const { actC, lossC, places, messages } = pastHeat;
  const say = useSay(renderPhase);
  const hours = (h: number) => text('page-records.time.hours', { spanHours: toTenths(h) });
  if (places.length === 0) return null;
  return (
    <>
      {messages.says && <p class="sentence">{say(messages.says)}</p>}
      <Scrollable label={text('page-records.hot')} class="record-scroll">
        <table class="record-hours">
          <caption>{text('page-records.hot.caption', { actC: whole(actC), lossC: whole(lossC) })}</caption>
          <thead>
            <tr>
              <th scope="col">{text('page-records.hot.place')}</th>
              <th scope="col">{text('page-records.hot.hottest')}</th>
              <th scope="col">{text('page-records.hot.at-least', { tempC: whole(actC) })}</th>
              <th scope="col">{text('page-records.hot.at-least', { tempC: whole(lossC) })}</th>
            </tr>
          </thead>
          <tbody>
            {places.map(({ position, peakC, peakAt, actH, lossH }) => (
              <tr key={position}>
                <th scope="row">{text('page-records.place', { position })}</th>
                <td>{text('page-records.hot.peak', { peakC: oneDecimal(peakC), peakWhenMs: Date.parse(peakAt) })}</td>
                <td>{hours(actH)}</td>
                <td>{hours(lossH)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrollable>
    </>
  );
}
