/** The record of one batch, made to be read on paper: facts for whoever asks, never a verdict. */
import { useRoute } from 'preact-iso';
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { reasonOf } from '../../data/client.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useQuery } from '../../data/use-query.ts';
import { renderReadiness } from '../../ui/format/render-readiness.ts';
import { FileLink } from '../../ui/parts/file-link.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { amountWords, batchSentence, factsLine } from '../batch/batch-words.ts';
import { lotSentence, useLotWords } from '../batch/lot-words.ts';
import { ReadinessFacts } from '../batch/readiness-part.tsx';
import { useBatchWords } from '../batch/use-batch-words.ts';
import { UseLine } from '../batch/use-line.tsx';
import { LaidRows } from '../pile/laid-rows.tsx';
import { VerdictLine } from '../verdict/verdict-line.tsx';
import { Alarms, Entries } from './entries-and-alarms.tsx';
import { RecordCurves } from './record-curves.tsx';
import { getRecord } from './records-api.ts';
import { renderRules, type SheetPart } from './sheet-part.ts';
import { TimeTemperature } from './time-temperature.tsx';
import { useRecordWords } from './use-record-words.ts';
import '../batch/batch.css';
import './records.css';

export function RecordPage() {
  const { text } = useRecordWords();
  const { params } = useRoute();
  const id = params.id ?? '';
  const { value, error } = useQuery(`record ${id}`, () => getRecord(id));
  const heading = usePage(
    value ? text('page-records.record.of', { batchName: value.batch.name }) : text('page-records.record'),
  );
  if (!value) {
    return (
      <div class="page narrow">
        <h1 ref={heading} tabIndex={-1}>
          {error === undefined ? text('page-records.record.drawing') : text('page-records.record.none')}
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
  const { text } = useRecordWords(batch.site);
  const batchWords = useBatchWords(batch.site);
  const { unit } = usePrefs();
  const say = useSay(renderReadiness, batch.site);
  const sayRule = useSay(renderRules, batch.site);
  return (
    <div class="page record">
      <header class="opening">
        <p class="dateline">
          {text('page-records.record.drawn', {
            siteName: sheet.siteName,
            drawnWhenMs: Date.parse(sheet.drawnUpAt),
          })}
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {batch.name}
        </h1>
        <p class="sentence">{batchSentence(batch, batchWords)}</p>
        {batch.endedAt !== null && <VerdictLine batch={batch} />}
        {batch.outcome && <p>{batchWords.text('page-batch.outcome', { outcomeText: batch.outcome })}</p>}
        {batch.reason && <p>{batchWords.text('page-batch.reason', { reasonText: batch.reason })}</p>}
        <ul class="not-this">
          {timeTemperature.messages.says.map((says) => (
            <li key={sayRule(says)}>{sayRule(says)}</li>
          ))}
        </ul>
        <div class="buttons record-files no-print">
          <button type="button" onClick={() => print()}>
            {text('page-records.print')}
          </button>
          <FileLink path={`/api/batches/${batch.id}/record.pdf`} name={`${batch.id}.pdf`}>
            {text('page-records.pdf')}
          </FileLink>
          <FileLink path={`/api/batches/${batch.id}/readings.csv`} name={`${batch.id}-readings.csv`}>
            {text('page-records.readings', { form: 'csv' })}
          </FileLink>
          <FileLink path={`/api/batches/${batch.id}/readings.json`} name={`${batch.id}-readings.json`}>
            {text('page-records.readings', { form: 'json' })}
          </FileLink>
          <a href={`/batches/${batch.id}`}>{text('page-records.the-batch')}</a>
        </div>
      </header>
      <MadeOf sheet={sheet} />
      <Part id="curves" title={text('page-records.curves')}>
        <RecordCurves curves={sheet.curves} unit={unit} />
      </Part>
      <TimeTemperature sheet={sheet} />
      <Entries sheet={sheet} />
      <Alarms sheet={sheet} />
      <Part id="readiness" title={text('page-records.readiness')}>
        <ReadinessFacts
          readiness={{ ...sheet.readiness, messages: { ...sheet.readiness.messages, cautions: [] } }}
          site={batch.site}
        />
      </Part>
      <UsedOn sheet={sheet} />
      <Part id="cautions" title={text('page-records.cautions')}>
        {sheet.messages.cautions.map((caution) => (
          <p class="caution" key={caution.code}>
            {say(caution)}
          </p>
        ))}
        <p class="quiet">{text('page-records.version', { versionText: sheet.version })}</p>
      </Part>
    </div>
  );
}

function MadeOf({ sheet: { recipe, assumed, lots, ancestry, batch } }: { readonly sheet: BatchRecordSheet }) {
  const { text } = useRecordWords();
  const words = useLotWords();
  const namesText = factsLine(
    ancestry.map(({ name }) => name),
    words,
  );
  return (
    <Part id="made-of" title={text('page-records.made-of')}>
      <dl class="ledger">
        <LaidRows laid={{ recipe, assumed, stage: batch.stage }} />
        {lots.map((lot) => (
          <div key={lot.id}>
            <dt>{lot.name}</dt>
            <dd>
              {amountWords({ massKg: lot.massKgIn, volumeL: lot.volumeLIn }, words) ??
                words.text('page-batch.amount.none')}
              <span class="origin">{lotSentence(lot, words)}</span>
            </dd>
          </div>
        ))}
      </dl>
      {ancestry.length > 0 && <p class="quiet">{text('page-records.made-of.from', { namesText })}</p>}
    </Part>
  );
}

function UsedOn({ sheet: { batch } }: SheetPart) {
  const { text } = useRecordWords();
  return (
    <Part id="used-on" title={text('page-records.use')}>
      {batch.uses.length === 0 && <p class="quiet">{text('page-records.use.none')}</p>}
      <ul class="flows">
        {batch.uses.map((use) => (
          <UseLine key={use.id} use={use} site={batch.site} />
        ))}
      </ul>
    </Part>
  );
}
