/**
 * The first file of a start. It imports nothing that an old Node lacks before it has looked at which one runs it.
 */
import { oldNode } from './old-node.ts';

const problem = oldNode(process.version);
if (problem === undefined) {
  void import('./start.ts').then(({ start }) => start(process.argv.slice(2)));
} else {
  console.error(problem);
  process.exitCode = 1;
}
