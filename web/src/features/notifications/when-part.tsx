/** When a person may be disturbed, reminded, and given the day's summary. */
import type { Preferences } from '../../../../shared/notifications.ts';
import { Choice, Field, PickField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Tick } from '../../ui/parts/tick.tsx';
import { minuteOf, timeText } from './sent-words.ts';

interface WhenPartProps {
  readonly draft: Preferences;
  readonly change: (part: Partial<Preferences>) => void;
  readonly fieldError: (pointer: string) => string | undefined;
}

const remindChoices = [
  ['0', 'Never'],
  ['15', 'Every quarter of an hour'],
  ['30', 'Every half hour'],
  ['60', 'Every hour'],
  ['120', 'Every two hours'],
  ['360', 'Every six hours'],
] as const;

export function WhenPart({ draft, change, fieldError }: WhenPartProps) {
  const { quiet, summaryAtMin, remindEveryMin } = draft;
  const every = String(remindEveryMin ?? 0);
  const choices = remindChoices.some(([value]) => value === every)
    ? remindChoices
    : [...remindChoices, [every, `Every ${every} minutes`] as const];
  return (
    <Part id="when" title="When">
      <Tick
        label="Quiet hours: what can wait is sent when they are over"
        checked={quiet !== null}
        onChange={(on) => change({ quiet: on ? { fromMin: 22 * 60, toMin: 6 * 60 } : null })}
      />
      {quiet !== null && (
        <div class="field-row">
          <TimeField
            label="From"
            minute={quiet.fromMin}
            error={fieldError('/quiet')}
            onMinute={(fromMin) => change({ quiet: { ...quiet, fromMin } })}
          />
          <TimeField label="To" minute={quiet.toMin} onMinute={(toMin) => change({ quiet: { ...quiet, toMin } })} />
        </div>
      )}
      <PickField<string>
        label="Remind me while nobody has acknowledged it"
        value={every}
        choices={choices}
        onValue={(value) => change({ remindEveryMin: value === '0' ? null : Number(value) })}
      />
      <Tick
        label="A summary of all piles once a day"
        checked={summaryAtMin !== null}
        onChange={(on) => change({ summaryAtMin: on ? 7 * 60 : null })}
      />
      {summaryAtMin !== null && (
        <TimeField label="At" minute={summaryAtMin} onMinute={(minute) => change({ summaryAtMin: minute })} />
      )}
      <Tick
        label="When a pile without a probe is due to be measured by hand"
        checked={draft.measureReminders}
        onChange={(measureReminders) => change({ measureReminders })}
      />
      <Choice
        legend="Temperatures in messages"
        value={draft.unit}
        choices={[
          ['C', '°C'],
          ['F', '°F'],
        ]}
        onValue={(unit) => change({ unit })}
      />
      <p class="hint">Times are those of {draft.timeZone.replaceAll('_', ' ')}.</p>
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
