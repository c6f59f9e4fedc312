import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

// The practice page runs these in a worker, where there is no Node.
for (const folder of ['model', 'probes', 'practice', 'farm', 'generate']) {
  test(`simulator/${folder} imports no node: module and no package but zod, and reads no clock`, () => {
    const files = readdirSync(`simulator/${folder}`, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.ts'),
    );
    expect(files.length).toBeGreaterThan(1);
    for (const file of files) {
      const text = readFileSync(`simulator/${folder}/${file}`, 'utf8');
      const outside = [...text.matchAll(/from '([^.'][^']*)'/g)]
        .map((match) => match[1])
        .filter((name) => name !== 'zod');
      expect(outside, file).toEqual([]);
      expect(text, file).not.toMatch(/Date\.now\(|Math\.random\(/);
    }
  });
}
