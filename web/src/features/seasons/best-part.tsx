/** Which batch was best, and what was different about it, in sentences, a stage at a time. */
import type { ComponentChildren } from 'preact';
import { type Best, bestOf, type Lower, lastYear } from '../../../../core/seasons/best.ts';
import { chanceRemark, noCause, sayDifference } from '../../../../core/seasons/difference-message.ts';
import type { MeasureApart } from '../../../../core/seasons/groups.ts';
import { comfortShare, type Judged } from '../../../../core/seasons/rank.ts';
import type { ComparedBatch } from '../../../../shared/contracts/seasons.ts';
import type { PageBestParams } from '../../../../shared/messages/made/params/page-best.ts';
import type { PageVerdictParams } from '../../../../shared/messages/made/params/page-verdict.ts';
import { paragraph, verbatim } from '../../../../shared/messages/message.ts';
import { type Stage, stages } from '../../../../shared/names.ts';
import type { VerdictReason } from '../../../../shared/verdict.ts';
import type { PageWords } from '../../data/live/page-texts.ts';
import { useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { lowered } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { useSayHeld } from '../journal/say-entry.ts';
import { useVerdictWords } from '../journal/use-verdict-words.ts';
import type { ChoiceText } from './address.ts';
import { amountOf, figureOf, measureName } from './measure-words.ts';
import { useBestWords } from './use-best-words.ts';
import { useSaySeason, useSeasonWords } from './use-season-words.ts';
import './best.css';
import './season.css';

interface BestPartProps {
  readonly batches: readonly ComparedBatch[];
  readonly choice: ChoiceText;
}

export function BestPart({ batches, choice }: BestPartProps) {
  const { text } = useBestWords();
  const thisYear = new Date(useServerNow()).getUTCFullYear();
  const isNarrow = [choice.year, choice.season, choice.batches, choice.lineage].some((one) => one !== undefined);
  const ended = batches.filter(({ endedAt }) => endedAt !== null);
  // Whoever chose no time asks about last year.
  const year = isNarrow ? undefined : lastYear(ended, thisYear);
  const asked = year === undefined ? ended : ended.filter((batch) => batch.year === year);
  const of = stages.filter((stage) => asked.some((batch) => batch.stage === stage));
  const yearText = choice.year ?? (year === undefined ? undefined : String(year));
  if (of.length === 0) return null;
  return (
    <Part
      id="best"
      title={yearText === undefined ? text('page-best.title') : text('page-best.title.year', { yearText })}
    >
      {of.map((stage) => (
        <BestOfStage
          key={stage}
          stage={of.length > 1 ? stage : undefined}
          yearText={yearText}
          isOfMore={year !== undefined && new Set(ended.map((batch) => batch.year)).size > 1}
          found={bestOf(
            asked.filter((batch) => batch.stage === stage),
            ended.filter((batch) => batch.stage === stage),
          )}
        />
      ))}
      <p class="hint no-print">{text('page-best.order')}</p>
    </Part>
  );
}

interface BestOfStageProps {
  /** Named where there are several. */
  readonly stage: Stage | undefined;
  readonly yearText: string | undefined;
  /** Whether it is laid beside batches of other years too. */
  readonly isOfMore: boolean;
  readonly found: Best;
}

function BestOfStage({ stage, yearText, isOfMore, found }: BestOfStageProps) {
  const { text, rich } = useBestWords();
  const sayVerdict = useSayHeld();
  const { best, alike, unjudged } = found;
  const year = { isYear: yearText !== undefined, yearText: yearText ?? '' };
  return (
    <div class="best-stage">
      {stage && <h3>{text('page-best.stage', { stage })}</h3>}
      {best ? (
        <>
          <p class="sentence best-answer">
            {rich('page-best.best', {
              ...year,
              batchName: best.name,
              judgedText: lowered(sayVerdict(best.verdict)),
              link: toBatch(best),
            })}
          </p>
          {best.verdict.note && <p class="diary-note">{best.verdict.note}</p>}
          {alike.length > 0 && <Alike best={best} alike={alike} />}
          <Different found={found} best={best} isOfMore={isOfMore} below={stage ? 'h3' : 'h2'} />
        </>
      ) : (
        <p class="sentence best-answer">{text('page-best.nobody', { batchCount: unjudged.length })}</p>
      )}
      {unjudged.length > 0 && (
        <div>
          {best && <p>{text('page-best.unjudged', { batchCount: unjudged.length })}</p>}
          <Names of={unjudged} label={text('page-best.unjudged.names')} />
        </div>
      )}
    </div>
  );
}

const toBatch = (batch: Pick<ComparedBatch, 'id'>) => (inner: ComponentChildren) => (
  <a href={`/batches/${encodeURIComponent(batch.id)}`}>{inner}</a>
);

function Names({ of, label }: { readonly of: readonly ComparedBatch[]; readonly label: string }) {
  return (
    <ul class="best-names" aria-label={label}>
      {of.map((batch) => (
        <li key={batch.id}>{toBatch(batch)(batch.name)}</li>
      ))}
    </ul>
  );
}

function Alike({ best, alike }: { readonly best: Judged; readonly alike: readonly Judged[] }) {
  const { text } = useBestWords();
  const { verdict } = best.verdict;
  const share = comfortShare(best);
  const { alarmH } = best.measures;
  const counted = { alikeCount: alike.length, verdict };
  return (
    <>
      <p>
        {text('page-best.alike', {
          ...counted,
          isMeasured: share !== null && alarmH !== null,
          alarmHours: Math.round(alarmH ?? 0),
          comfortFrac: share ?? 0,
        })}
      </p>
      <Names of={alike} label={text('page-best.alike.names', counted)} />
    </>
  );
}

interface DifferentProps extends Pick<BestOfStageProps, 'found' | 'isOfMore'> {
  readonly best: Judged;
  /** The heading above it. */
  readonly below: 'h2' | 'h3';
}

function Different({ found: { like, lower }, best, isOfMore, below }: DifferentProps) {
  const Title = below === 'h3' ? 'h4' : 'h3';
  const { text } = useBestWords();
  const say = useSaySeason();
  const { verdict } = best.verdict;
  const likeText = text('page-best.like', { verdict });
  const measures = lower.flatMap((group) => group.measures);
  const compared = measures.filter(({ interval }) => interval !== null).length;
  if (lower.length === 0) return <p>{text('page-best.none-lower', { likeText })}</p>;
  return (
    <div class="best-different">
      <Title class="best-different-title">{text('page-best.different')}</Title>
      {lower.map((group) => (
        <Beside key={group.verdict} best={best} like={like} group={group} isOfMore={isOfMore} />
      ))}
      <p class="hint no-print">{say(paragraph(noCause, chanceRemark(compared)))}</p>
    </div>
  );
}

interface BesideProps extends Pick<DifferentProps, 'best' | 'isOfMore'> {
  readonly like: readonly Judged[];
  readonly group: Lower;
}

/** Those judged like the best one beside those of one lower verdict. */
function Beside({ best, like, group, isOfMore }: BesideProps) {
  const { text } = useBestWords();
  const { text: verdictText } = useVerdictWords();
  const { verdict } = best.verdict;
  const names = [text('page-best.like', { verdict }), text('page-best.like', { verdict: group.verdict })] as const;
  const apart = group.measures.filter((measure) => measure.apart);
  const rest = group.measures.filter((measure) => !measure.apart);
  const isFew = group.measures.every(({ interval }) => interval === null);
  return (
    <>
      <p>
        {text('page-best.groups', {
          verdict,
          likeCount: like.length,
          lower: group.verdict,
          lowerCount: group.batches.length,
          isYear: isOfMore,
        })}{' '}
        {isFew ? text('page-best.few') : text('page-best.apart', { apartCount: apart.length })}
      </p>
      <p class="quiet">{text('page-best.whys', { whysText: whysOf(group, text, verdictText) })}</p>
      <Differences best={best} measures={apart} names={names} />
      {!isFew && rest.length > 0 && (
        <details class="more">
          <summary>{text('page-best.rest')}</summary>
          <Differences best={best} measures={rest} names={names} />
        </details>
      )}
    </>
  );
}

/** What people said of these, most said first. @example "never warm enough (3), too hot (1)" */
function whysOf(
  { batches }: Lower,
  text: PageWords<PageBestParams>['text'],
  verdictText: PageWords<PageVerdictParams>['text'],
): string {
  const counts = new Map<VerdictReason | 'own', number>();
  for (const { verdict } of batches) counts.set(verdict.why ?? 'own', (counts.get(verdict.why ?? 'own') ?? 0) + 1);
  const reason = (why: VerdictReason | 'own') =>
    why === 'own' ? text('page-best.why.own') : verdictText(`page-verdict.why.${why}`);
  return [...counts]
    .sort(([, one], [, other]) => other - one)
    .map(([why, saidCount]) => text('page-best.why', { whyText: reason(why), saidCount }))
    .join(', ');
}

interface DifferencesProps {
  readonly best: Judged;
  readonly measures: readonly MeasureApart[];
  /** Of the two groups. */
  readonly names: readonly [string, string];
}

/** Each difference with its doubt, and where the best batch itself lay. */
function Differences({ best, measures, names }: DifferencesProps) {
  const { text } = useBestWords();
  const words = useSeasonWords();
  const say = useSaySeason();
  const { unit } = usePrefs();
  return (
    <ul class="differences">
      {measures.map((measure) => {
        const { key } = measure;
        const amount = amountOf(key, unit, words);
        const saying = { name: measureName(key), amount: (difference: number) => verbatim(amount(difference)) };
        const own = best.measures[key];
        return (
          <li key={key}>
            {say(sayDifference(measure, saying, names))}
            {own !== null && (
              <b> {text('page-best.own', { batchName: best.name, figureText: figureOf(key, own, unit, words) })}</b>
            )}
          </li>
        );
      })}
    </ul>
  );
}
