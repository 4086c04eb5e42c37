// Starts the page: words, then the app; the service worker keeps everything for later.
import { render } from 'preact';
import { App } from './app';
import { keepOffline } from './keep_offline';
import { loadWords } from './words';
import './style.css';

const root = document.getElementById('app');
if (root) {
  const words = await loadWords('words.en.json');
  render(<App words={words} kept={keepOffline()} />, root);
}
