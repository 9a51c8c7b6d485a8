// Keeps the files of the page on the roof, so that it opens where there is no network. Nothing else is kept here:
// what was entered is the page's own to keep, and every verdict is asked of the service.
const KEPT = `hookspan-roof-${VERSION}`;
const FILES = ["/roof/en", "/roof/de", "/roof/page.js", "/roof/page.css", "/roof/icon.svg"];
const START = "/roof";
const PATIENCE_MS = 3000;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(KEPT).then((kept) => kept.addAll(FILES)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  const others = async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith("hookspan-roof-") && name !== KEPT) await caches.delete(name);
    }
    await self.clients.claim();
  };
  event.waitUntil(others());
});

// The network first, so that nobody works with an old page for long; what is kept where it does not answer, or where
// something before the service says that it is not there.
async function file(request) {
  const kept = await caches.open(KEPT);
  const fresh = fetch(request).then(async (reply) => {
    if (reply.ok) await kept.put(request, reply.clone());
    return reply;
  });
  const late = new Promise((done) => setTimeout(done, PATIENCE_MS));
  const first = await Promise.race([fresh.catch(() => undefined), late]);
  if (first && first.status < 500) return first;
  return (await kept.match(request, { ignoreSearch: true })) || fresh;
}

// Where the page begins: the service knows which language; without it, the phone does.
async function start(request) {
  const reply = await Promise.race([fetch(request).catch(() => undefined), new Promise((done) => setTimeout(done, PATIENCE_MS))]);
  if (reply && reply.status < 500) return reply;
  return Response.redirect(self.navigator.language.startsWith("de") ? "/roof/de" : "/roof/en");
}

self.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  if (event.request.method !== "GET" || address.origin !== self.location.origin) return;
  if (FILES.includes(address.pathname)) event.respondWith(file(event.request));
  else if (address.pathname === START) event.respondWith(start(event.request));
});
