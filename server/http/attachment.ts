/** Headers of a file that is saved rather than shown, and never kept by anyone on the way. */

/** @param name Of a-z, 0-9, hyphen and dot only. */
export function attachment(name: string, type: string): Record<string, string> {
  return {
    'Content-Type': type,
    'Content-Disposition': `attachment; filename="${name.replace(/[^a-z0-9.-]/gi, '-')}"`,
    'Cache-Control': 'private, no-store',
  };
}
