/** A code for a phone to scan, dark on white in either theme. */
import type { QrPath } from '../../../../shared/qr-path.ts';
import './qr-code.css';

interface QrCodeProps {
  readonly code: QrPath;
  /** Where it leads, for whoever cannot see it. */
  readonly label: string;
}

export function QrCode({ code: { size, path }, label }: QrCodeProps) {
  return (
    <svg class="qr-code" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label}>
      <rect width={size} height={size} fill="#fff" />
      <path d={path} fill="#000" shape-rendering="crispEdges" />
    </svg>
  );
}
