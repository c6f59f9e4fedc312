/** The record of one batch, made to be read on paper: facts for whoever asks, never a verdict. */
import { useRoute } from 'preact-iso';
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { measureText } from '../../../../shared/measure.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useQuery } from '../../data/use-query.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { renderReadiness } from '../../ui/format/render-readiness.ts';
import { capital } from '../../ui/format/words.ts';
import { FileLink } from '../../ui/parts/file-link.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { amountWords, batchSentence, lotSentence, targetNames } from '../batch/batch-words.ts';
import { ReadinessFacts } from '../batch/readiness-part.tsx';
import { LaidRows } from '../pile/laid-rows.tsx';
import { VerdictLine } from '../verdict/verdict-line.tsx';
import { Alarms, Entries } from './entries-and-alarms.tsx';
import { RecordCurves } from './record-curves.tsx';
import { getRecord } from './records-api.ts';
import { instantWords, renderRules, type SheetPart } from './sheet-part.ts';
import { TimeTemperature } from './time-temperature.tsx';
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
        {batch.endedAt !== null && <VerdictLine batch={batch} />}
        {batch.outcome && <p>How it came out: {batch.outcome}</p>}
        {batch.reason && <p>Why it was abandoned: {batch.reason}</p>}
        <ul class="not-this">
          {timeTemperature.messages.says.map((says) => (
            <li key={sayRule(says)}>{sayRule(says)}</li>
          ))}
        </ul>
        <div class="buttons record-files no-print">
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
