/** A pile's readings over a stretch of time, as charts or as a table. */
import { useState } from 'preact/hooks';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { BandSource, SeriesAnswer } from '../../../../shared/contracts/series.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { AheadTable } from '../../charts/ahead-table.tsx';
import { SeriesTable } from '../../charts/series-table.tsx';
import { installation } from '../../data/live/installation.ts';
import { serverNowMs } from '../../data/live/server-clock.ts';
import { useInstallation, useReader } from '../../data/live/use-installation.ts';
import { getSeries } from '../../data/routes.ts';
import { useQuery, useThrottled } from '../../data/use-query.ts';
import { instantOfWall, wallOfInstant } from '../../ui/format/local-time.ts';
import { loadSoon } from '../../ui/load-soon.ts';
import { Choice, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { Ahead, AheadInWords } from './ahead.tsx';
import { customSpan, type SpanChoice, spanChoices, spanOf, type TimeSpan } from './time-span.ts';
import { usePileWords } from './use-pile-words.ts';
import './history.css';

const usePileCharts = loadSoon(() => import('../../charts/pile-charts.tsx'));

const refetchEveryMs = 4_000;

/** The readings of the stretch that is chosen; a stretch that ends now goes on with what comes in. */
function useChosenSeries(pile: PileDetail) {
  const [choice, setChoice] = useState<SpanChoice>('batch');
  const [custom, setCustom] = useState<TimeSpan>();
  const [expected, setExpected] = useState<BandSource>('both');
  const startedAtMs = pile.batch ? Date.parse(pile.batch.startedAt) : null;
  const points = innerWidth < 600 ? 240 : 480;

  const spanNow = (): TimeSpan => {
    if (choice === 'custom' && custom) return custom;
    const { clock } = installation.get();
    const nowMs = clock ? serverNowMs(clock, performance.now()) : Date.now();
    return spanOf(choice === 'custom' ? 'batch' : choice, startedAtMs, nowMs);
  };
  // Before the server's clock is known this device's may be years off: what was asked by it is asked anew.
  const byWhom = useInstallation(({ clock }) => (clock ? 'server' : 'device'));
  const key = `${pile.id} ${choice} ${choice === 'custom' ? JSON.stringify(custom) : startedAtMs} ${expected} ${byWhom}`;
  const { value, error, refresh } = useQuery(key, () => {
    const { fromMs, toMs } = spanNow();
    return getSeries(pile.id, toInstant(Math.floor(fromMs)), toInstant(Math.ceil(toMs)), points, expected);
  });
  const newest = Object.values(pile.positions)
    .map((now) => now?.at ?? '')
    .sort()
    .at(-1);
  useThrottled(`${newest} ${pile.acts.length}`, refetchEveryMs, () => {
    if (choice !== 'custom') void refresh();
  });
  return { choice, setChoice, custom, setCustom, expected, setExpected, spanNow, series: value, error };
}

export function History({ pile }: { readonly pile: PileDetail }) {
  const { timeZone } = useReader(pile.site);
  const { text } = usePileWords();
  const [form, setForm] = useState<'charts' | 'table'>('charts');
  const { choice, setChoice, custom, expected, setExpected, series, error, ...chosen } = useChosenSeries(pile);
  return (
    <section class="history" aria-labelledby="history">
      <h2 id="history">{text('page-pile.history.title')}</h2>
      <Ahead pile={pile} />
      <Refusal error={error} />
      {series ? (
        form === 'charts' ? (
          <LazyCharts pile={pile} series={series} />
        ) : (
          <>
            <SeriesTable series={series} site={pile.site} />
            <AheadTable series={series} site={pile.site} />
          </>
        )
      ) : (
        error === undefined && <p class="quiet chart-wait">{text('page-pile.history.fetching')}</p>
      )}
      <AheadInWords pile={pile} series={series} />
      <div class="history-bar">
        <Choice
          legend={text('page-pile.history.span')}
          hideLegend
          value={choice}
          choices={spanChoices.map(
            (span) => [span, text('page-pile.history.span.of', { span: spanName(span) })] as const,
          )}
          onValue={setChoice}
        />
        <Choice
          legend={text('page-pile.history.form')}
          hideLegend
          value={form}
          choices={[
            ['charts', text('page-pile.history.form.of', { form: 'charts' })],
            ['table', text('page-pile.history.form.of', { form: 'other' })],
          ]}
          onValue={setForm}
        />
      </div>
      <ExpectedFrom batches={series?.expected.ownBatches} value={expected} onValue={setExpected} />
      {choice === 'custom' && (
        <CustomSpan timeZone={timeZone} first={custom ?? chosen.spanNow()} onSpan={chosen.setCustom} />
      )}
    </section>
  );
}

const spanName = (span: SpanChoice) => (span === 'three-days' ? 'threeDays' : span === 'custom' ? 'other' : span);

interface ExpectedFromProps {
  readonly batches: number | undefined;
  readonly value: BandSource;
  readonly onValue: (value: BandSource) => void;
}

/** Which expected band is drawn, once the grower's own batches speak in it. */
function ExpectedFrom({ batches, value, onValue }: ExpectedFromProps) {
  const { text } = usePileWords();
  const [known, setKnown] = useState(batches);
  // While another band is fetched, the choice stays where it was.
  if (batches !== undefined && batches !== known) setKnown(batches);
  if (known === undefined) return null;
  return (
    <div class="expected-from no-print">
      <Choice
        legend={text('page-pile.history.band')}
        value={value}
        choices={[
          ['model', text('page-pile.history.band.of', { source: 'model', batchCount: known })],
          ['own', text('page-pile.history.band.of', { source: 'own', batchCount: known })],
          ['both', text('page-pile.history.band.of', { source: 'other', batchCount: known })],
        ]}
        onValue={onValue}
      />
    </div>
  );
}

/** The chart code comes in a file of its own, fetched when a pile is first opened. */
function LazyCharts({ pile, series }: { readonly pile: PileDetail; readonly series: SeriesAnswer }) {
  const { text } = usePileWords();
  const { loaded, error } = usePileCharts();
  if (error !== undefined) return <Refusal error={error} />;
  if (!loaded) return <p class="quiet chart-wait">{text('page-pile.history.drawing')}</p>;
  return <loaded.default pile={pile} series={series} />;
}

interface CustomSpanProps {
  readonly timeZone: string | undefined;
  readonly first: TimeSpan;
  readonly onSpan: (span: TimeSpan) => void;
}

function CustomSpan({ timeZone, first, onSpan }: CustomSpanProps) {
  const { text } = usePileWords();
  const [from, setFrom] = useState(() => wallOfInstant(first.fromMs, timeZone));
  const [to, setTo] = useState(() => wallOfInstant(first.toMs, timeZone));
  const [wrong, setWrong] = useState<string>();
  return (
    <form
      class="form custom-span"
      onSubmit={(event) => {
        event.preventDefault();
        const span = customSpan(instantOfWall(from, timeZone), instantOfWall(to, timeZone));
        setWrong(typeof span === 'string' ? text(`page-pile.history.${span}`) : undefined);
        if (typeof span !== 'string') onSpan(span);
      }}
    >
      <div class="field-row">
        <TextField label={text('page-pile.history.from')} type="datetime-local" value={from} onValue={setFrom} />
        <TextField
          label={text('page-pile.history.to')}
          type="datetime-local"
          value={to}
          onValue={setTo}
          error={wrong}
        />
      </div>
      <button type="submit">{text('page-pile.history.show')}</button>
    </form>
  );
}
