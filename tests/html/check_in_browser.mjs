// Opens pages in headless Chromium, as a phone (390 px wide) and on a desk (1280 px), and asks axe-core what a screen reader's
// tester would: check_in_browser.mjs FOLDER. Pages named hostile_… are opened with their content-security policy switched off,
// so that it is not the policy alone that keeps scripts and requests away, and compared with the plain page of their kind.
import {readFileSync, readdirSync} from 'node:fs';
import {join, resolve} from 'node:path';
import {createRequire} from 'node:module';

const require = createRequire(join(process.cwd(), 'package.json'));
const {default: puppeteer} = await import(require.resolve('puppeteer-core'));
const axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

const folder = resolve(process.argv[2]);
const pages = readdirSync(folder).filter(name => name.endsWith('.html')).sort();
const plain = {lesson: 'lesson_plain.html', student: 'student_plain.html'};
const findings = [];
const kinds = {opened: 0, hostile: 0, asked_axe: 0};

const browser = await puppeteer.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', headless: true,
  args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--host-resolver-rules=MAP * ~NOTFOUND']});

// How many elements of each kind a page has: a name that breaks out changes it.
const skeleton = page => page.evaluate(() => {
  const counts = {};
  for (const element of document.querySelectorAll('*')) counts[element.localName] = (counts[element.localName] ?? 0) + 1;
  return JSON.stringify(counts, Object.keys(counts).sort());
});

async function opened(name, width, obeyed) {
  const page = await browser.newPage();
  const told = {requests: [], dialogs: []};
  page.on('request', request => told.requests.push(request.url().slice(0, 100)));
  page.on('dialog', dialog => { told.dialogs.push(dialog.message()); dialog.dismiss(); });
  await page.setBypassCSP(!obeyed);
  await page.setViewport({width, height: 844, deviceScaleFactor: 1});
  await page.goto('file://' + join(folder, name), {waitUntil: 'load'});
  ++kinds.opened;
  const seen = await page.evaluate(() => ({
    wide: document.documentElement.scrollWidth, hit: window.hit !== undefined, scripts: document.scripts.length,
    handlers: [...document.querySelectorAll('*')].filter(e => [...e.attributes].some(a => /^on/i.test(a.name))).length,
    lang: document.documentElement.lang, title: document.title}));
  const find = what => findings.push(`${name} at ${width} px: ${what}`);
  if (seen.wide > width) find(`it scrolls sideways, ${seen.wide} px wide`);
  if (told.requests.length !== 1) find(`requests: ${told.requests.join(' ')}`);
  if (told.dialogs.length || seen.hit || seen.scripts || seen.handlers) find('a script ran, or could');
  if (!seen.lang || !seen.title) find('no language or no title');
  return {page, find};
}

const skeletons = {};
for (const kind in plain) {
  const {page} = await opened(plain[kind], 390, false);
  skeletons[kind] = await skeleton(page);
  await page.close();
}
for (const name of pages) {
  const hostile = /^hostile_(lesson|student)/.exec(name);
  for (const width of hostile ? [390] : [390, 1280]) {
    const {page, find} = await opened(name, width, !hostile);
    if (hostile) {
      ++kinds.hostile;
      if (await skeleton(page) !== skeletons[hostile[1]]) find('its name changes the page');
    } else {
      ++kinds.asked_axe;
      await page.evaluate(() => document.querySelectorAll('details').forEach(part => { part.open = true; }));
      await page.setBypassCSP(true);
      await page.evaluate(axe);
      const answer = await page.evaluate(() => axe.run(document, {resultTypes: ['violations']}));
      for (const found of answer.violations)
        find(`${found.impact}: ${found.help} (${found.id}), ${found.nodes.length} times, first ${found.nodes[0].html.slice(0, 120)}`);
    }
    if (process.env.PICTURES && !hostile)
      await page.screenshot({path: join(process.env.PICTURES, `${name}.${width}.png`), fullPage: true});
    await page.close();
  }
}
await browser.close();

for (const finding of findings.slice(0, 40)) console.error(finding);
console.log(`${kinds.opened} pages opened, ${kinds.hostile} with hostile names, ${kinds.asked_axe} asked by axe-core: ${findings.length} findings`);
process.exit(findings.length || kinds.opened === 0 ? 1 : 0);
