/** A batch in a line: which, of which stage and where, since when, for how long, how hot it was, how it came out. */
import { formatTemp } from '../../../../shared/temperature.ts';
import { msPerDay } from '../../../../shared/units.ts';
import { usePrefs } from '../../data/prefs.ts';
import { heatColour } from '../../ui/colour/heat-scale.ts';
import { useShade } from '../../ui/use-shade.ts';
import { useVerdictWords } from '../journal/use-verdict-words.ts';
import type { ListedBatch } from './batches-view.ts';
import { useBatchWords } from './use-batch-words.ts';
import './batch-line.css';

export function BatchLine({ listed }: { readonly listed: ListedBatch }) {
  const { batch, lengthMs } = listed;
  const { text, rich } = useBatchWords(batch.site);
  const { name, stage, pileName, startedAt, endedAt } = batch;
  const dayCount = Math.max(
    1,
    endedAt === null ? Math.floor(lengthMs / msPerDay) + 1 : Math.round(lengthMs / msPerDay),
  );
  return (
    <li class="batch-line">
      <h3>
        <a href={`/batches/${batch.id}`}>{name}</a>
      </h3>
      <p class="batch-line-facts">
        {/* A name that nobody gave says all but how long. */}
        {batch.messages?.name === undefined && (
          <>
            <span>{text('page-batch.line.stage', { stage })}</span>
            <span class="batch-line-pile">{pileName}</span>
            <span>
              {rich('page-batch.line.laid', {
                laidDayMs: Date.parse(startedAt),
                word: (inner) => <span class="batch-line-word">{inner}</span>,
              })}
            </span>
          </>
        )}
        <span class="batch-line-length">{text('page-batch.line.length', { isOpen: endedAt === null, dayCount })}</span>
      </p>
      <Peak listed={listed} />
      <CameOut listed={listed} />
    </li>
  );
}

function Peak({ listed: { peakC } }: { readonly listed: ListedBatch }) {
  const { text } = useBatchWords();
  const { unit } = usePrefs();
  const shade = useShade();
  if (peakC === undefined) return <p class="batch-line-peak" />;
  if (peakC === null) return <p class="batch-line-peak quiet">{text('page-batch.line.not-measured')}</p>;
  return (
    <p class="batch-line-peak">
      <span class="batch-line-swatch" style={{ background: heatColour(peakC, shade) }} aria-hidden="true" />
      {text('page-batch.line.peak', { peakText: formatTemp(peakC, unit) })}
    </p>
  );
}

function CameOut({ listed: { batch } }: { readonly listed: ListedBatch }) {
  const { text } = useBatchWords();
  const verdictWords = useVerdictWords();
  const { id, verdict, endedAt, ending } = batch;
  if (verdict) return <p class="batch-line-verdict">{verdictWords.text(`page-verdict.is.${verdict.verdict}`)}</p>;
  return (
    <p class="batch-line-verdict quiet">
      {endedAt !== null && (
        <a href={`/batches/${id}#verdict`}>
          {text('page-batch.line.unjudged', { how: ending === 'abandoned' ? ending : 'other' })}
        </a>
      )}
    </p>
  );
}
