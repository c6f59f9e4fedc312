/** As `engines` of package.json has it: a gate test compares the two. */
const least = [20, 19] as const;

/**
 * @param version As `process.version` has it.
 * @returns one line that a person can act on, when this Node is too old.
 * @example oldNode('v18.20.4') // => 'Branhearth needs Node.js 20.19 or later; …'
 */
export function oldNode(version: string): string | undefined {
  const [major = 0, minor = 0] = version.replace(/^v/, '').split('.').map(Number);
  if (major > least[0] || (major === least[0] && minor >= least[1])) return undefined;
  return `Branhearth needs Node.js ${least.join('.')} or later, best the newest long-term one (24): this is ${version}, at ${process.execPath}`;
}
