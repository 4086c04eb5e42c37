// Starts the page: words, then the app; the service worker keeps everything for later.
import { render } from 'preact';
import { App } from './app';
import { loadWords } from './words';
import './style.css';

async function keepOffline(): Promise<boolean> {
  if (!('serviceWorker' in navigator)) return false;
  await navigator.serviceWorker.register('service-worker.js');
  await navigator.serviceWorker.ready;
  return true;
}

const root = document.getElementById('app');
if (root) {
  const words = await loadWords('words.en.json');
  render(<App words={words} offline={keepOffline()} />, root);
}
