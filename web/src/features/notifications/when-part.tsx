/** When a person may be disturbed, reminded, and given the day's summary. */
import type { Preferences } from '../../../../shared/notifications.ts';
import { Choice, Field, PickField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Tick } from '../../ui/parts/tick.tsx';
import { minuteOf, timeText } from './sent-words.ts';
import { type NotificationWords, useNotificationWords } from './use-notification-words.ts';

interface WhenPartProps {
  readonly draft: Preferences;
  readonly change: (part: Partial<Preferences>) => void;
  readonly fieldError: (pointer: string) => string | undefined;
}

const offeredMin = [0, 15, 30, 60, 120, 360];

/** Whole hours as such. */
function remindWords(minutes: number, { text }: Pick<NotificationWords, 'text'>): string {
  return minutes > 0 && minutes % 60 === 0
    ? text('page-notifications.remind.hours', { hourCount: minutes / 60 })
    : text('page-notifications.remind.minutes', { minuteCount: minutes });
}

export function WhenPart({ draft, change, fieldError }: WhenPartProps) {
  const words = useNotificationWords();
  const { text } = words;
  const { quiet, summaryAtMin, remindEveryMin } = draft;
  const every = remindEveryMin ?? 0;
  const choices = [...offeredMin, ...(offeredMin.includes(every) ? [] : [every])].map(
    (minutes) => [String(minutes), remindWords(minutes, words)] as const,
  );
  return (
    <Part id="when" title={text('page-notifications.when')}>
      <Tick
        label={text('page-notifications.quiet')}
        checked={quiet !== null}
        onChange={(on) => change({ quiet: on ? { fromMin: 22 * 60, toMin: 6 * 60 } : null })}
      />
      {quiet !== null && (
        <div class="field-row">
          <TimeField
            label={text('page-notifications.quiet.from')}
            minute={quiet.fromMin}
            error={fieldError('/quiet')}
            onMinute={(fromMin) => change({ quiet: { ...quiet, fromMin } })}
          />
          <TimeField
            label={text('page-notifications.quiet.to')}
            minute={quiet.toMin}
            onMinute={(toMin) => change({ quiet: { ...quiet, toMin } })}
          />
        </div>
      )}
      <PickField<string>
        label={text('page-notifications.remind')}
        value={String(every)}
        choices={choices}
        onValue={(value) => change({ remindEveryMin: value === '0' ? null : Number(value) })}
      />
      <Tick
        label={text('page-notifications.summary')}
        checked={summaryAtMin !== null}
        onChange={(on) => change({ summaryAtMin: on ? 7 * 60 : null })}
      />
      {summaryAtMin !== null && (
        <TimeField
          label={text('page-notifications.summary.at')}
          minute={summaryAtMin}
          onMinute={(minute) => change({ summaryAtMin: minute })}
        />
      )}
      <Tick
        label={text('page-notifications.measure')}
        checked={draft.measureReminders}
        onChange={(measureReminders) => change({ measureReminders })}
      />
      <Choice
        legend={text('page-notifications.unit')}
        value={draft.unit}
        choices={[
          ['C', '°C'],
          ['F', '°F'],
        ]}
        onValue={(unit) => change({ unit })}
      />
      <p class="hint">{text('page-notifications.zone', { zoneText: draft.timeZone.replaceAll('_', ' ') })}</p>
    </Part>
  );
}

interface TimeFieldProps {
  readonly label: string;
  readonly minute: number;
  readonly error?: string | undefined;
  readonly onMinute: (minute: number) => void;
}

function TimeField({ label, minute, error, onMinute }: TimeFieldProps) {
  return (
    <Field label={label} error={error}>
      {(ids) => (
        <input
          {...ids}
          type="time"
          value={timeText(minute)}
          onChange={(event) => {
            const next = minuteOf(event.currentTarget.value);
            if (next !== undefined) onMinute(next);
          }}
        />
      )}
    </Field>
  );
}
