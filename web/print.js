// Printing: the sheets of a print document become the only printed part of this page, one page a sheet.
'use strict';

const print_view = (() => {
  const root = document.getElementById('print');
  const style = new CSSStyleSheet();
  let printing = false;
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, style];

  return {
    // Puts the document's sheets and its rules for pages in place. They show on paper only.
    prepare(html) {
      // The rules are taken out first: this page's policy lets no style in with a document's text.
      const rules = [];
      const body = html.replace(/<style>([^]*?)<\/style>/g, (all, rule) => { rules.push(rule); return ''; });
      style.replaceSync(`@media print {\n${rules.join('\n')}\n}`);
      const sheets = new DOMParser().parseFromString(body, 'text/html');
      root.replaceChildren(...[...sheets.body.children].map((one) => document.importNode(one, true)));
    },
    // Opens the browser's print dialogue on what was prepared.
    show() {
      printing = true;
      window.print();
      printing = false;
    },
    printing: () => printing,
  };
})();
