// A static server of the built page that remembers what was asked of it.
import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';

const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.wasm': 'application/wasm',
};

export async function serve(folder) {
  const asked = [];
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url, 'http://localhost').pathname);
    asked.push(path);
    const file = join(folder, path === '/' ? 'index.html' : path);
    if (!file.startsWith(folder) || !existsSync(file) || !statSync(file).isFile())
      return response.writeHead(404).end();
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream' });
    response.end(readFileSync(file));
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    address: `http://127.0.0.1:${server.address().port}/`,
    asked,
    stop() {
      server.closeAllConnections();
      return new Promise((resolve) => server.close(resolve));
    },
  };
}
