// Holds pages against the accessibility rules of axe-core in a headless
// browser: node check.js PAGE... Exits 1 and lists what it finds.
// Modules are looked for beside this script and in $CASTWEEK_REFS/node_modules,
// the browser as $CHROMIUM or the system's chromium.
'use strict';
const fs = require('fs');
const path = require('path');
const { pathToFileURL } = require('url');

const where = { paths: [__dirname, process.env.CASTWEEK_REFS || __dirname] };
const puppeteer = require(require.resolve('puppeteer-core', where));
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js', where), 'utf8');

const browserFile = process.env.CHROMIUM || ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((f) => fs.existsSync(f));

(async () => {
  // In a container the browser runs as root and has no sandbox; the pages are
  // our own and hold no script.
  const browser = await puppeteer.launch({ executablePath: browserFile, headless: true, args: ['--no-sandbox', '--disable-gpu'] });
  let found = 0;
  let checked = 0;
  for (const file of process.argv.slice(2)) {
    for (const width of [360, 1000]) {
      const page = await browser.newPage();
      await page.setViewport({ width, height: 800 });
      await page.goto(pathToFileURL(path.resolve(file)).href);
      await page.evaluate(axe);
      const result = await page.evaluate(() => axe.run(document));
      for (const v of result.violations) {
        found++;
        console.log(`${path.basename(file)} at ${width} px: ${v.id} (${v.impact}): ${v.help}`);
        for (const n of v.nodes.slice(0, 5)) console.log(`  ${n.target.join(' ')}: ${n.html.slice(0, 160)}`);
      }
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      if (overflow > 0) {
        found++;
        console.log(`${path.basename(file)} at ${width} px: ${overflow} px wider than the screen`);
      }
      checked += result.passes.length;
      await page.close();
    }
  }
  await browser.close();
  if (checked === 0) {
    console.log('no rule was applied');
    process.exit(1);
  }
  console.log(`${checked} rules passed, ${found} findings`);
  process.exit(found ? 1 : 0);
})().catch((e) => {
  console.log(String(e));
  process.exit(1);
});
