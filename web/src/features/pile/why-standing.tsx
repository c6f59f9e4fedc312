/** How long a thing must be seen, what is asked of people now, and every step the warning took. */
import type { Delays } from '../../../../shared/conditions/condition.ts';
import { conditionOf } from '../../../../shared/conditions/kinds.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { lengthWords } from '../../ui/format/age.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { stateName, warningTitle } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { StepList } from './alarm-steps.tsx';
import { severityOf } from './alarm-words.ts';
import { type PileWords, usePileWords } from './use-pile-words.ts';
import './warnings.css';
import './why.css';

interface WhyStandingProps {
  readonly pile: PileDetail;
  readonly kind: WarningKind;
}

/** How long it must be seen, and how long gone; our own proposal, as core/alarms/policies.ts says. */
function delayWords({ onDelayMs, offDelayMs }: Delays, { text }: PileWords): string {
  return text('page-pile.why.delays', {
    onAtOnce: onDelayMs === 0,
    onText: lengthWords(onDelayMs),
    offAtOnce: offDelayMs === 0,
    offText: lengthWords(offDelayMs),
  });
}

/** What is asked of people, and every step the warning took. */
export function WhyStanding({ pile, kind }: WhyStandingProps) {
  const words = usePileWords(pile.site);
  const { text } = words;
  const said = useSaid(renderPile, pile.site);
  const reader = useReader(pile.site);
  const nowMs = useServerNow();
  const alarms = pile.alarms.filter((alarm) => alarm.kind === kind && alarm.state !== 'normal');
  return (
    <Part id="standing" title={text('page-pile.why.standing')}>
      <p>{delayWords(conditionOf(kind).delays, words)}</p>
      {alarms.length === 0 && <p>{text('page-pile.why.none-stands')}</p>}
      {alarms.map((alarm) => (
        <div class="why-standing" key={alarm.id}>
          <h3>{warningTitle(alarm.kind, alarm.position)}</h3>
          <p class="alarm-state">
            {text('page-pile.warnings.state', {
              severity: severityOf(alarm),
              stateText: stateName(alarm.state),
              timeText: nearTime(Date.parse(alarm.since), nowMs, reader),
            })}
          </p>
          {alarm.state === 'returned-unacknowledged' ? (
            <p>{text('page-pile.why.has-passed')}</p>
          ) : (
            <p class="todo">{said(alarm, 'todo')}</p>
          )}
          {alarm.caution && alarm.state !== 'returned-unacknowledged' && (
            <p class="caution">
              <span class="label">{text('page-pile.caution')}</span> {said(alarm, 'caution')}
            </p>
          )}
          <StepList alarm={alarm} site={pile.site} />
        </div>
      ))}
    </Part>
  );
}
