/** A password, shown when asked for, pasted as one likes, and known to password managers. */
import { useState } from 'preact/hooks';
import { Field } from '../../ui/parts/forms.tsx';
import './people.css';
import { useSignInWords } from './use-sign-in-words.ts';

interface PasswordFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onValue: (value: string) => void;
  /** `new` where one is chosen, `present` where one is entered. */
  readonly kind: 'new' | 'present';
  readonly hint?: string;
  readonly error?: string | undefined;
}

export function PasswordField({ label, value, onValue, kind, hint, error }: PasswordFieldProps) {
  const { text } = useSignInWords();
  const [shown, setShown] = useState(false);
  return (
    <Field label={label} hint={hint} error={error}>
      {(ids) => (
        <div class="password-line">
          <input
            {...ids}
            type={(shown ? 'text' : 'password') as 'text'}
            value={value}
            required
            autocomplete={kind === 'new' ? 'new-password' : 'current-password'}
            autocapitalize="off"
            spellcheck={false}
            onInput={(event) => onValue(event.currentTarget.value)}
          />
          <button type="button" aria-pressed={shown} onClick={() => setShown(!shown)}>
            {text(shown ? 'page-sign-in.hide' : 'page-sign-in.show')}
          </button>
        </div>
      )}
    </Field>
  );
}

/** A name as password managers know it. */
export function NameField({ label, value, onValue, error, hint }: Omit<PasswordFieldProps, 'kind'>) {
  return (
    <Field label={label} hint={hint} error={error}>
      {(ids) => (
        <input
          {...ids}
          type="text"
          value={value}
          required
          maxLength={60}
          autocomplete="username"
          autocapitalize="words"
          spellcheck={false}
          onInput={(event) => onValue(event.currentTarget.value)}
        />
      )}
    </Field>
  );
}
