/** A part of a page with its heading in the margin. */
import type { ComponentChildren } from 'preact';

interface PartProps {
  readonly id: string;
  readonly title: ComponentChildren;
  readonly children: ComponentChildren;
}

export function Part({ id, title, children }: PartProps) {
  return (
    <section class="part" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      <div>{children}</div>
    </section>
  );
}
