/** The batch along a ruler of days: where it is, and where its stage usually ends. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { msPerHour } from '../../../../shared/units.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { batchDay } from '../../ui/format/age.ts';
import { shortDay } from '../../ui/format/local-time.ts';
import { renderPhase, standSentence } from './phase-words.ts';
import { usePileWords } from './use-pile-words.ts';
import './batch-ruler.css';

const ruler = { height: 46, edge: 5, lineY: 24 } as const;

/** Drawn at about its own size, so that its numbers are as large as other small print. */
const rulerWidth = () => (innerWidth < 720 ? 330 : 600);

export function BatchRuler({ pile }: { readonly pile: PileDetail }) {
  const nowMs = useServerNow();
  const reader = useReader(pile.site);
  const words = usePileWords(pile.site);
  const say = useSay(renderPhase);
  if (!pile.batch) return null;
  const startedAtMs = Date.parse(pile.batch.startedAt);
  const elapsedH = Math.max(0, (nowMs - startedAtMs) / msPerHour);
  const fromH = pile.limits.lengthMinH?.value;
  const toH = pile.limits.lengthMaxH?.value;
  const days = Math.max(3, Math.ceil(Math.max(toH ?? 0, elapsedH) / 24 + 0.01));
  const width = rulerWidth();
  const x = (hours: number) => ruler.edge + ((width - 2 * ruler.edge) * hours) / (days * 24);
  const everyDays = Math.ceil(days / (width / 28));
  return (
    <div class="ruler">
      <p>
        {words.rich('page-pile.ruler', {
          dayCount: batchDay(startedAtMs, nowMs),
          hasUsual: fromH !== undefined && toH !== undefined,
          fromDayNumber: (fromH ?? 0) / 24,
          toDayNumber: (toH ?? 0) / 24,
          dayText: shortDay(startedAtMs, reader),
          b: (inner) => <b>{inner}</b>,
        })}{' '}
        {toH !== undefined && elapsedH > toH && `${words.text('page-pile.ruler.over')} `}
        {standSentence(pile, words)}
        {pile.batch.heat?.messages.says && ` ${say(pile.batch.heat.messages.says)}`}
      </p>
      <svg viewBox={`0 0 ${width} ${ruler.height}`} aria-hidden="true">
        {fromH !== undefined && toH !== undefined && (
          <rect class="ruler-usual" x={x(fromH)} y={ruler.lineY - 7} width={x(toH) - x(fromH)} height="7" />
        )}
        <path class="ruler-line" d={`M${ruler.edge} ${ruler.lineY}H${width - ruler.edge}`} />
        <path class="ruler-done" d={`M${ruler.edge} ${ruler.lineY}H${x(elapsedH)}`} />
        {Array.from({ length: days + 1 }, (_, i) => (
          <g key={x(i * 24)}>
            <path class="ruler-line" d={`M${x(i * 24)} ${ruler.lineY}v${i % everyDays === 0 ? 7 : 4}`} />
            {i < days && i % everyDays === 0 && (
              <text class="ruler-number" x={x((i + everyDays / 2) * 24)} y={ruler.height - 5} text-anchor="middle">
                {i + 1}
              </text>
            )}
          </g>
        ))}
        <path class="ruler-now" d={`M${x(elapsedH)} ${ruler.lineY + 3}V${ruler.lineY - 14}`} />
        <circle class="ruler-now" cx={x(elapsedH)} cy={ruler.lineY - 16} r="4" />
      </svg>
    </div>
  );
}
