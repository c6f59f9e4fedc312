/**
 * web/main.tsx: puts the page on the screen and connects it to the house.
 */
import { render } from 'preact';
import { config } from 'zod';
import { App } from './app.tsx';
import { connect } from './live/connection.ts';
import { keepPages } from './live/installed.ts';
import './style/tokens.css';
import './style/base.css';
import './style/parts.css';
import './style/mound.css';
import './style/pages.css';
import './style/judge.css';

// The content security policy forbids code made from strings, which zod would otherwise try first.
config({ jitless: true });

const root = document.getElementById('page');
if (root) render(<App />, root);
connect();
void keepPages();
