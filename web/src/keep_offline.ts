// Keeps every file of the page on the device. Settles once that is done (true) or cannot be (false):
// over plain http on a local network browsers offer no service worker at all.

function settled(worker: ServiceWorker): Promise<void> {
  return new Promise((resolve) => {
    const look = () => {
      if (worker.state === 'activated' || worker.state === 'redundant') resolve();
    };
    worker.addEventListener('statechange', look);
    look();
  });
}

export async function keepOffline(): Promise<boolean> {
  if (!('serviceWorker' in navigator)) return false;
  try {
    const kept = await navigator.serviceWorker.register('service-worker.js');
    const first = kept.active ?? kept.waiting ?? kept.installing;
    if (first) await settled(first);
    return kept.active !== null;
  } catch {
    return navigator.serviceWorker.controller !== null;
  }
}
