/** The record of one batch, made to be read on paper: facts for whoever asks, never a verdict. */
import { useRoute } from 'preact-iso';
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { measureText } from '../../../../shared/measure.ts';
import { ruleTexts } from '../../../../shared/messages/made/en/rule.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useSaid, useSay } from '../../data/live/use-say.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useQuery } from '../../data/use-query.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { clockTime, type Reader } from '../../ui/format/local-time.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { renderReadiness } from '../../ui/format/render-readiness.ts';
import { formatTemp, plainNumber } from '../../ui/format/temperature.ts';
import { capital, positionNames, warningNames } from '../../ui/format/words.ts';
import { FileLink } from '../../ui/parts/file-link.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Scrollable } from '../../ui/parts/scrollable.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { amountWords, batchSentence, lotSentence, targetNames } from '../batch/batch-words.ts';
import { ReadinessFacts } from '../batch/readiness-part.tsx';
import { Photo } from '../journal/photo.tsx';
import { useSayEntry } from '../journal/say-entry.ts';
import { LaidRows } from '../pile/laid-rows.tsx';
import { renderPhase } from '../pile/phase-words.ts';
import { RecordCurves } from './record-curves.tsx';
import { getRecord } from './records-api.ts';
import '../batch/batch.css';
import './records.css';

export function RecordPage() {
  const { params } = useRoute();
  const id = params.id ?? '';
  const { value, error } = useQuery(`record ${id}`, () => getRecord(id));
  const heading = usePage(value ? `Record of ${value.batch.name}` : 'Record');
  if (!value) {
    return (
      <div class="page narrow">
        <h1 ref={heading} tabIndex={-1}>
          {error === undefined ? 'Drawing up the record…' : 'The record cannot be drawn up.'}
        </h1>
        {error !== undefined && <p class="lead">{reasonOf(error)}</p>}
      </div>
    );
  }
  return <Sheet sheet={value} heading={heading} />;
}

const renderRules = rendererOf(ruleTexts);

const instantWords = (instant: string, reader: Reader) =>
  `${fullDay(Date.parse(instant), reader)}, ${clockTime(Date.parse(instant), reader)}`;

function Sheet({
  sheet,
  heading,
}: {
  readonly sheet: BatchRecordSheet;
  readonly heading: preact.RefObject<HTMLHeadingElement | null>;
}) {
  const { batch, timeTemperature } = sheet;
  const reader = useReader(batch.site);
  const { unit } = usePrefs();
  const say = useSay(renderReadiness, batch.site);
  const sayRule = useSay(renderRules, batch.site);
  return (
    <div class="page record">
      <header class="opening">
        <p class="dateline">
          {sheet.siteName}, record drawn up {instantWords(sheet.drawnUpAt, reader)}
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {batch.name}
        </h1>
        <p class="sentence">{batchSentence(batch, (instant) => fullDay(Date.parse(instant), reader))}</p>
        {batch.outcome && <p>How it came out: {batch.outcome}</p>}
        {batch.reason && <p>Why it was abandoned: {batch.reason}</p>}
        <ul class="not-this">
          {timeTemperature.messages.says.map((says) => (
            <li key={sayRule(says)}>{sayRule(says)}</li>
          ))}
        </ul>
        <div class="buttons no-print">
          <button type="button" onClick={() => print()}>
            Print it
          </button>
          <FileLink path={`/api/batches/${batch.id}/record.pdf`} name={`${batch.id}.pdf`}>
            PDF
          </FileLink>
          <FileLink path={`/api/batches/${batch.id}/readings.csv`} name={`${batch.id}-readings.csv`}>
            Readings as CSV
          </FileLink>
          <FileLink path={`/api/batches/${batch.id}/readings.json`} name={`${batch.id}-readings.json`}>
            Readings as JSON
          </FileLink>
          <a href={`/batches/${batch.id}`}>The batch</a>
        </div>
      </header>
      <MadeOf sheet={sheet} />
      <Part id="curves" title="Temperatures">
        <RecordCurves curves={sheet.curves} unit={unit} />
      </Part>
      <TimeTemperature sheet={sheet} reader={reader} />
      <Entries sheet={sheet} reader={reader} />
      <Alarms sheet={sheet} reader={reader} />
      <Part id="readiness" title="Readiness">
        <ReadinessFacts
          readiness={{ ...sheet.readiness, messages: { ...sheet.readiness.messages, cautions: [] } }}
          site={batch.site}
        />
      </Part>
      <UsedOn sheet={sheet} reader={reader} />
      <Part id="cautions" title="Cautions">
        {sheet.messages.cautions.map((caution) => (
          <p class="caution" key={caution.code}>
            {say(caution)}
          </p>
        ))}
        <p class="quiet">Branhearth {sheet.version}</p>
      </Part>
    </div>
  );
}

function MadeOf({ sheet: { recipe, assumed, lots, ancestry, batch } }: { readonly sheet: BatchRecordSheet }) {
  const units = usePlanUnits();
  const reader = useReader(batch.site);
  const day = (instant: string | number) =>
    fullDay(typeof instant === 'number' ? instant : Date.parse(instant), reader);
  return (
    <Part id="made-of" title="What it was made of">
      <dl class="ledger">
        <LaidRows laid={{ recipe, assumed, stage: batch.stage }} />
        {lots.map((lot) => (
          <div key={lot.id}>
            <dt>{lot.name}</dt>
            <dd>
              {amountWords({ massKg: lot.massKgIn, volumeL: lot.volumeLIn }, units) ?? 'amount not written down'}
              <span class="origin">{lotSentence(lot, day)}</span>
            </dd>
          </div>
        ))}
      </dl>
      {ancestry.length > 0 && <p class="quiet">It came from {ancestry.map((node) => node.name).join(', ')}.</p>}
    </Part>
  );
}

interface SheetPart {
  readonly sheet: BatchRecordSheet;
  readonly reader: Reader;
}

function timesTurned(turns: number): string {
  if (turns === 0) return 'no turn was written down';
  return turns === 1 ? 'turned once' : turns === 2 ? 'turned twice' : `turned ${turns} times`;
}

function TimeTemperature({ sheet, reader }: SheetPart) {
  const { timeTemperature: log } = sheet;
  const { unit } = usePrefs();
  const say = useSay(renderRules);
  const hours = (h: number) => `${plainNumber(h, 1)} h`;
  return (
    <Part id="time-temperature" title="Time and temperature">
      <p>
        {log.position ? `Counted at the ${positionNames[log.position]}.` : 'Nothing was measured.'} Measured for{' '}
        {hours(log.measuredH)}, not measured for {hours(log.unmeasuredH)}; {timesTurned(log.turns)}.
        {log.highestC !== null &&
          ` Highest ${formatTemp(log.highestC, unit)}${log.highestAt ? `, ${instantWords(log.highestAt, reader)}` : ''}.`}
      </p>
      <PlacesHeat sheet={sheet} reader={reader} />
      <table class="portions record-hours">
        <caption>Hours at or above</caption>
        <thead>
          <tr>
            <th scope="col">Temperature</th>
            <th scope="col">In all</th>
            <th scope="col">Longest at a stretch</th>
          </tr>
        </thead>
        <tbody>
          {log.hoursAtLeast.map((row) => (
            <tr key={row.tempC}>
              <th scope="row">{formatTemp(row.tempC, unit, 0)}</th>
              <td>{hours(row.totalH)}</td>
              <td>{hours(row.longestRunH)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {log.rules.length > 0 && (
        <>
          <h3 class="sub-head">Beside composting rules, as facts</h3>
          <dl class="rules">
            {log.rules.map(({ standing, messages: { rule, source, asks, measured } }) => (
              <div key={rule.code}>
                <dt>{say(rule)}</dt>
                <dd>
                  <p>
                    Asks: {say(asks)}
                    <br />
                    Measured: <b>{say(measured)}</b>
                  </p>
                  <span class="origin">
                    {say(source)}
                    {standing === 'from memory' && '; from memory, look it up before relying on it'}
                  </span>
                </dd>
              </div>
            ))}
          </dl>
        </>
      )}
    </Part>
  );
}

function PlacesHeat({ sheet: { pastHeat }, reader }: SheetPart) {
  const { unit } = usePrefs();
  const { actC, lossC, places, messages } = pastHeat;
  const say = useSay(renderPhase);
  if (places.length === 0) return null;
  return (
    <>
      {messages.says && <p class="sentence">{say(messages.says)}</p>}
      <Scrollable label="How hot each place was" class="record-scroll">
        <table class="portions record-hours">
          <caption>
            How hot each place was: {formatTemp(actC, unit, 0)} is where to act, {formatTemp(lossC, unit, 0)} where the
            culture is being lost
          </caption>
          <thead>
            <tr>
              <th scope="col">Place</th>
              <th scope="col">Hottest</th>
              <th scope="col">{formatTemp(actC, unit, 0)} or more</th>
              <th scope="col">{formatTemp(lossC, unit, 0)} or more</th>
            </tr>
          </thead>
          <tbody>
            {places.map(({ position, peakC, peakAt, actH, lossH }) => (
              <tr key={position}>
                <th scope="row">{positionNames[position]}</th>
                <td>
                  {formatTemp(peakC, unit)}, {instantWords(peakAt, reader)}
                </td>
                <td>{plainNumber(actH, 1)} h</td>
                <td>{plainNumber(lossH, 1)} h</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrollable>
    </>
  );
}

function Entries({ sheet: { entries }, reader }: SheetPart) {
  const sayEntry = useSayEntry();
  return (
    <Part id="acts" title="Journal">
      {entries.length === 0 && <p class="quiet">Nothing was written down.</p>}
      <ol class="diary">
        {entries.map((entry) => (
          <li key={entry.id}>
            <time dateTime={entry.at}>{instantWords(entry.at, reader)}</time>
            <div>
              <p>
                <b>{sayEntry(entry.what)}</b>
                {entry.by && <span class="quiet"> by {entry.by}</span>}
                {entry.corrected && <span class="quiet"> (corrected)</span>}
                {entry.note && <span class="diary-note">{entry.note}</span>}
              </p>
              {entry.photoIds.length > 0 && (
                <ul class="photos">
                  {entry.photoIds.map((id, index) => (
                    <li key={id}>
                      <Photo id={id} alt={`Photo ${index + 1} of ${sayEntry(entry.what)}`} />
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

function Alarms({ sheet: { alarms }, reader }: SheetPart) {
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

function UsedOn({ sheet: { batch }, reader }: SheetPart) {
  const units = usePlanUnits();
  return (
    <Part id="used-on" title="Use">
      {batch.uses.length === 0 && <p class="quiet">No use was written down.</p>}
      <ul class="flows">
        {batch.uses.map((use) => (
          <li key={use.id}>
            <p>
              <b>{use.place}</b>, {capital(targetNames[use.target])}
              <span class="origin">
                {[
                  fullDay(Date.parse(use.at), reader),
                  amountWords(use, units),
                  use.areaM2 === null ? undefined : measureText('areaM2', use.areaM2, units, 3),
                  use.rateKgPerM2 === null ? undefined : measureText('rateKgM2', use.rateKgPerM2, units, 3),
                  use.by,
                ]
                  .filter(Boolean)
                  .join(', ')}
              </span>
            </p>
          </li>
        ))}
      </ul>
    </Part>
  );
}
