/** Choices large enough for a dirty thumb: one of them, or several. */
import { useId } from 'preact/hooks';
import './thumb-choice.css';

interface ThumbProps {
  readonly legend: string;
  readonly choices: readonly (readonly [value: string, words: string])[];
  readonly error?: string | undefined;
}

interface OneProps extends ThumbProps {
  readonly value: string;
  readonly onValue: (value: string) => void;
  /** May be taken back by tapping it again. */
  readonly optional?: boolean;
}

export function OneOf({ legend, choices, value, onValue, error, optional }: OneProps) {
  const name = useId();
  return (
    <ThumbSet legend={legend} error={error}>
      {choices.map(([choice, words]) => (
        <label key={choice}>
          <input
            type="radio"
            name={name}
            value={choice}
            checked={choice === value}
            onClick={() => optional && choice === value && onValue('')}
            onChange={() => onValue(choice)}
          />
          <span>{words}</span>
        </label>
      ))}
    </ThumbSet>
  );
}

interface SomeProps extends ThumbProps {
  readonly values: readonly string[];
  readonly onValues: (values: string[]) => void;
}

export function SomeOf({ legend, choices, values, onValues, error }: SomeProps) {
  return (
    <ThumbSet legend={legend} error={error}>
      {choices.map(([choice, words]) => (
        <label key={choice}>
          <input
            type="checkbox"
            value={choice}
            checked={values.includes(choice)}
            onChange={(event) =>
              onValues(event.currentTarget.checked ? [...values, choice] : values.filter((one) => one !== choice))
            }
          />
          <span>{words}</span>
        </label>
      ))}
    </ThumbSet>
  );
}

function ThumbSet({
  legend,
  error,
  children,
}: {
  readonly legend: string;
  readonly error: string | undefined;
  readonly children: preact.ComponentChildren;
}) {
  const id = useId();
  return (
    <fieldset class="thumbs" aria-describedby={error ? id : undefined}>
      <legend>{legend}</legend>
      <div class="thumbs-row picks">{children}</div>
      {error && (
        <p class="wrong" id={id}>
          {error}
        </p>
      )}
    </fieldset>
  );
}
