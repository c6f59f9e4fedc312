/** One thing to choose or not, large enough for a thumb. */
import './tick.css';

interface TickProps {
  readonly label: string;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  readonly disabled?: boolean;
}

export function Tick({ label, checked, onChange, disabled }: TickProps) {
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={checked}
        disabled={disabled}
        onChange={(event) => onChange(event.currentTarget.checked)}
      />
      <span>{label}</span>
    </label>
  );
}
