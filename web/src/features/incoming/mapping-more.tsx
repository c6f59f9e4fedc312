/** What few devices need: names, scale and offset, times, and where they say whether they are there. */
import { useState } from 'preact/hooks';
import type { MappedValue, MappingInput } from '../../../../shared/contracts/mappings.ts';
import { readNumber } from '../../data/read-number.ts';
import type { Mutation } from '../../data/use-mutation.ts';
import { TextField } from '../../ui/parts/forms.tsx';
import { placeText, withValue } from './mapping-draft.ts';
import { useIncomingWords } from './use-incoming-words.ts';
import './incoming.css';

interface MoreProps {
  readonly draft: MappingInput;
  readonly onDraft: (draft: MappingInput) => void;
  readonly mutation: Mutation;
}

export function MappingMore(props: MoreProps) {
  const { text } = useIncomingWords();
  const [isOpen, setOpen] = useState(false);
  return (
    <details class="more" open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{text('page-incoming.mapping.more')}</summary>
      {isOpen && (
        <>
          <Names {...props} />
          <Numbers {...props} />
          <Times {...props} />
          <Availability {...props} />
        </>
      )}
    </details>
  );
}

function Names({ draft, onDraft, mutation }: MoreProps) {
  const { text } = useIncomingWords();
  return (
    <div class="field-row">
      <TextField
        label={text('page-incoming.mapping.topics')}
        mono
        hint={text('page-incoming.mapping.topics.hint')}
        value={draft.filter}
        onValue={(filter) => onDraft({ ...draft, filter })}
        error={mutation.fieldError('/filter')}
      />
      <TextField
        label={text('page-incoming.mapping.probe')}
        mono
        hint={text('page-incoming.mapping.probe.hint')}
        value={draft.probe}
        onValue={(probe) => onDraft({ ...draft, probe })}
        error={mutation.fieldError('/probe')}
      />
      <TextField
        label={text('page-incoming.mapping.site')}
        mono
        value={draft.site}
        onValue={(site) => onDraft({ ...draft, site })}
        error={mutation.fieldError('/site')}
      />
    </div>
  );
}

function Numbers({ draft, onDraft, mutation }: MoreProps) {
  return (
    <>
      {draft.values.map((value, index) => (
        <ValueNumbers
          key={`${value.each} ${value.only?.is} ${value.pointer}`}
          value={value}
          isOneOfMany={draft.values.length > 1}
          onChange={(change) => onDraft(withValue(draft, index, change))}
          errorOf={(name) => mutation.fieldError(`/values/${index}/${name}`)}
        />
      ))}
    </>
  );
}

interface ValueNumbersProps {
  readonly value: MappedValue;
  readonly isOneOfMany: boolean;
  readonly onChange: (change: Partial<MappedValue>) => void;
  readonly errorOf: (name: string) => string | undefined;
}

function ValueNumbers({ value, isOneOfMany, onChange, errorOf }: ValueNumbersProps) {
  const { text } = useIncomingWords();
  const [scale, setScale] = useState(String(value.scale));
  const [offset, setOffset] = useState(String(value.offset));
  return (
    <fieldset class="mapped-value">
      {isOneOfMany && <legend>{placeText(value)}</legend>}
      <div class="field-row">
        <TextField
          label={text('page-incoming.mapping.scale')}
          hint={text('page-incoming.mapping.scale.hint')}
          inputMode="decimal"
          value={scale}
          onValue={(typed) => {
            setScale(typed);
            onChange({ scale: readNumber(typed) ?? Number.NaN });
          }}
          error={errorOf('scale')}
        />
        <TextField
          label={text('page-incoming.mapping.offset')}
          inputMode="decimal"
          value={offset}
          onValue={(typed) => {
            setOffset(typed);
            onChange({ offset: readNumber(typed) ?? 0 });
          }}
          error={errorOf('offset')}
        />
        <TextField
          label={text('page-incoming.mapping.own-probe')}
          mono
          value={value.probe ?? ''}
          onValue={(probe) => onChange({ probe: probe === '' ? undefined : probe })}
          error={errorOf('probe')}
        />
      </div>
    </fieldset>
  );
}

const textOrNothing = (typed: string) => (typed.trim() === '' ? undefined : typed.trim());

function Times({ draft, onDraft, mutation }: MoreProps) {
  const { text } = useIncomingWords();
  return (
    <div class="field-row">
      <TextField
        label={text('page-incoming.mapping.time')}
        mono
        hint={text('page-incoming.mapping.time.hint')}
        value={draft.timePointer ?? ''}
        onValue={(typed) => onDraft({ ...draft, timePointer: textOrNothing(typed) })}
        error={mutation.fieldError('/timePointer')}
      />
      <TextField
        label={text('page-incoming.mapping.zone')}
        hint={text('page-incoming.mapping.zone.hint')}
        value={draft.timeZone ?? ''}
        onValue={(typed) => onDraft({ ...draft, timeZone: textOrNothing(typed) })}
        error={mutation.fieldError('/timeZone')}
      />
    </div>
  );
}

/** As most devices say it. */
const usualWords = { pointer: '', online: 'online', offline: 'offline' };

function Availability({ draft, onDraft, mutation }: MoreProps) {
  const { text } = useIncomingWords();
  const { availability } = draft;
  const change = (part: object) =>
    onDraft({ ...draft, availability: { filter: '', ...usualWords, ...availability, ...part } });
  return (
    <div class="field-row">
      <TextField
        label={text('page-incoming.mapping.availability')}
        mono
        value={availability?.filter ?? ''}
        onValue={(filter) => (filter === '' ? onDraft({ ...draft, availability: undefined }) : change({ filter }))}
        error={mutation.fieldError('/availability/filter')}
      />
      {availability !== undefined && (
        <>
          <TextField
            label={text('page-incoming.mapping.availability.online')}
            mono
            value={availability.online}
            onValue={(online) => change({ online })}
            error={mutation.fieldError('/availability/online')}
          />
          <TextField
            label={text('page-incoming.mapping.availability.offline')}
            mono
            value={availability.offline}
            onValue={(offline) => change({ offline })}
            error={mutation.fieldError('/availability/offline')}
          />
        </>
      )}
    </div>
  );
}
