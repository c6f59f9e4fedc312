/** Fields with their label, hint and what is wrong with them. */
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { reasonOf } from '../../data/client.ts';

interface FieldProps {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly error?: string | undefined;
  /** A unit that stands after the field. */
  readonly unit?: string | undefined;
  readonly children: (ids: {
    id: string;
    'aria-describedby': string | undefined;
    'aria-invalid': boolean;
  }) => ComponentChildren;
}

export function Field({ label, hint, error, unit, children }: FieldProps) {
  const id = useId();
  const describedBy = [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(' ');
  return (
    <div class={`field${error ? ' field-wrong' : ''}`}>
      <label for={id}>
        {label}
        {unit && <span class="unit"> ({unit})</span>}
      </label>
      {children({ id, 'aria-describedby': describedBy || undefined, 'aria-invalid': Boolean(error) })}
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {error && (
        <p class="wrong" id={`${id}-error`}>
          {error}
        </p>
      )}
    </div>
  );
}

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly hint?: string | undefined;
  readonly error?: string | undefined;
  readonly unit?: string | undefined;
  readonly required?: boolean;
  readonly type?: 'text' | 'datetime-local' | 'password';
  readonly inputMode?: 'decimal' | 'numeric' | 'text';
  readonly mono?: boolean;
  readonly placeholder?: string;
}

export function TextField(props: TextFieldProps) {
  const { label, value, onValue, hint, error, unit, required, type = 'text', inputMode, mono, placeholder } = props;
  return (
    <Field label={label} hint={hint} error={error} unit={unit}>
      {(ids) => (
        <input
          {...ids}
          class={mono ? 'mono' : undefined}
          // The typings want one literal per kind of input; all three take the same attributes.
          type={type as 'text'}
          value={value}
          required={required}
          inputMode={inputMode}
          placeholder={placeholder}
          autocomplete="off"
          autocapitalize={mono ? 'off' : undefined}
          spellcheck={!mono}
          onInput={(event) => onValue(event.currentTarget.value)}
        />
      )}
    </Field>
  );
}

interface PickFieldProps<Value extends string> {
  readonly label: string;
  readonly value: Value;
  readonly choices: readonly (readonly [value: Value, words: string])[];
  readonly onValue: (value: Value) => void;
  readonly hint?: string | undefined;
  readonly error?: string | undefined;
}

export function PickField<Value extends string>({
  label,
  value,
  choices,
  onValue,
  hint,
  error,
}: PickFieldProps<Value>) {
  return (
    <Field label={label} hint={hint} error={error}>
      {(ids) => (
        <select {...ids} value={value} onChange={(event) => onValue(event.currentTarget.value as Value)}>
          {choices.map(([choice, words]) => (
            <option key={choice} value={choice} selected={choice === value}>
              {words}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

interface ChoiceProps<Value extends string> {
  readonly legend: string;
  /** Undefined until one is taken. */
  readonly value: Value | undefined;
  readonly choices: readonly (readonly [value: Value, words: string])[];
  readonly onValue: (value: Value) => void;
  readonly hideLegend?: boolean;
}

/** A few choices side by side, one of them taken. */
export function Choice<Value extends string>({ legend, value, choices, onValue, hideLegend }: ChoiceProps<Value>) {
  const name = useId();
  return (
    <fieldset class="choice">
      <legend class={hideLegend ? 'unseen' : undefined}>{legend}</legend>
      <div class="choice-row picks">
        {choices.map(([choice, words]) => (
          <label key={choice}>
            <input
              type="radio"
              name={name}
              value={choice}
              checked={choice === value}
              onChange={() => onValue(choice)}
            />
            <span>{words}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** Why something could not be done, said at once. */
export function Refusal({ error }: { readonly error: unknown }) {
  return (
    <div role="alert" class="refusal-slot">
      {error !== undefined && <p class="refusal">{reasonOf(error)}</p>}
    </div>
  );
}
