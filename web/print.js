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
      const sheets = new DOMParser().parseFromString(html, 'text/html');
      const rules = [...sheets.querySelectorAll('style')].map((one) => one.textContent).join('\n');
      style.replaceSync(`@media print {\n${rules}\n}`);
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
