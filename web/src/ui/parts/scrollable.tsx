/** A region that scrolls by itself, within reach of the keyboard (WCAG 2.2, 2.1.1). */
import type { ComponentChildren } from 'preact';

interface ScrollableProps {
  readonly label: string;
  readonly class: string;
  readonly children: ComponentChildren;
}

export function Scrollable({ label, class: name, children }: ScrollableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable without a pointer
    <section class={name} aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
