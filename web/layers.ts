/**
 * Each sheet is one layer of the cascade, named after its file, so that no sheet wins over another by a longer selector: the shared ones
 * of `ui/style` come first, then those of shared parts, then those of features. What a sheet may speak of is held by `tests/gate/styles.mjs`.
 */
import type { Plugin } from 'vite';

const order = '@layer base, parts, features;\n';

/** @param path Of a sheet below `src`. @example layerOf('features/pile/warnings.css') // => "features.pile-warnings" */
export function layerOf(path: string): string {
  const [folder, ...rest] = path.replace(/\.css$/, '').split('/');
  if (path.startsWith('ui/style/')) return 'base';
  return folder === 'features' ? `features.${rest.join('-')}` : `parts.${rest.at(-1)}`;
}

/** @param sources The folder `src`, with a slash at its end. */
export function layered(sources: string): Plugin {
  return {
    name: 'layered',
    enforce: 'pre',
    transform: {
      filter: { id: /\.css$/ },
      handler(sheet, id) {
        if (!id.startsWith(sources)) return null;
        const layer = layerOf(id.slice(sources.length));
        return { code: `${layer === 'base' ? order : ''}@layer ${layer} {\n${sheet}\n}`, map: null };
      },
    },
  };
}
