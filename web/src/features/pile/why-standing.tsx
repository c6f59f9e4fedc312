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
import { alarmStateNames, warningTitle } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { StepList } from './alarm-steps.tsx';
import './warnings.css';
import './why.css';

interface WhyStandingProps {
  readonly pile: PileDetail;
  readonly kind: WarningKind;
}

/** How long it must be seen, and how long gone; our own proposal, as core/alarms/policies.ts says. */
function delayWords({ onDelayMs, offDelayMs }: Delays): string {
  const on =
    onDelayMs === 0
      ? 'People are notified at once when it is seen'
      : `It must be seen for ${lengthWords(onDelayMs)} before people are notified`;
  const off =
    offDelayMs === 0
      ? 'it ends as soon as it is seen no more'
      : `it ends when it has been seen no more for ${lengthWords(offDelayMs)}`;
  return `${on}; ${off}. Readings that are missing never end it.`;
}

/** What is asked of people, and every step the warning took. */
export function WhyStanding({ pile, kind }: WhyStandingProps) {
  const said = useSaid(renderPile, pile.site);
  const reader = useReader(pile.site);
  const nowMs = useServerNow();
  const alarms = pile.alarms.filter((alarm) => alarm.kind === kind && alarm.state !== 'normal');
  return (
    <Part id="standing" title="The warning">
      <p>{delayWords(conditionOf(kind).delays)}</p>
      {alarms.length === 0 && <p>No such warning stands.</p>}
      {alarms.map((alarm) => (
        <div class="why-standing" key={alarm.id}>
          <h3>{warningTitle(alarm.kind, alarm.position)}</h3>
          <p class="alarm-state">
            {alarm.severity}, {alarmStateNames[alarm.state]}, since {nearTime(Date.parse(alarm.since), nowMs, reader)}
          </p>
          {alarm.state === 'returned-unacknowledged' ? (
            <p>It has passed, so what it asked for is asked no more.</p>
          ) : (
            <p class="todo">{said(alarm, 'todo')}</p>
          )}
          {alarm.caution && alarm.state !== 'returned-unacknowledged' && (
            <p class="caution">
              <span class="label">Caution</span> {said(alarm, 'caution')}
            </p>
          )}
          <StepList alarm={alarm} site={pile.site} />
        </div>
      ))}
    </Part>
  );
}
