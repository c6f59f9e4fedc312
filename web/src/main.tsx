/** Puts the page on the screen and connects it to the server. */
import './data/no-eval.ts';
import './ui/style/type.css';
import './ui/style/tokens.css';
import './ui/style/base.css';
import './ui/style/parts.css';
import './ui/style/forms.css';
import './ui/style/ledger.css';
import './ui/style/mound.css';
import './ui/style/part.css';
import './ui/style/diary.css';
import './ui/style/entry.css';
import './ui/style/print.css';

import { render } from 'preact';
import { App } from './app.tsx';
import { connect } from './data/live/connection.ts';
import { followLanguage } from './data/live/follow-language.ts';
import { keepPages } from './data/live/installed.ts';

connect();
// What the server is asked goes out before the parts that a page asks for as it is drawn.
setTimeout(() => {
  const root = document.getElementById('page');
  if (root) render(<App />, root);
  followLanguage();
  void keepPages();
});
