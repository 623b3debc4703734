// Of the page that lights the cutting table, its remote: the same page in a second window of this browser, which tells the
// first what to do. They know each other by a token, so that two tables in one browser are two.
const CHANNEL = 'coatwright-table';

const channel = 'BroadcastChannel' in window ? new BroadcastChannel(CHANNEL) : null;
const token = /^#remote=([a-z0-9]{8,16})$/.exec(location.hash)?.[1] || '';
const own_token = () => {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return [...bytes].map((byte) => (byte % 36).toString(36)).join('');
};
const my_token = token ? '' : own_token();

function tell_remote() {
  if (!channel || !my_token) return;
  const showing = at === 'show';
  channel.postMessage({ from: my_token, showing, title: coat.title, piece: showing ? piece_words() : say("light.remote-waits"), blank: view.blank, alone: view.alone });
}
function obey(data) {
  if (!data || data.to !== my_token) return;
  const by = [1, 10, 100].includes(data.by) ? data.by : 1;
  if (at === 'show') {
    if (Object.hasOwn(WAYS, data.do)) nudge(...WAYS[data.do], by);
    else if (Object.hasOwn(DEEDS, data.do)) DEEDS[data.do]();
    else tell_remote();
  } else {
    tell_remote();
  }
}
function open_remote() {
  const opened = window.open(`cloth.html#remote=${my_token}`, '_blank', 'popup,width=390,height=760');
  if (!opened) tell_problem(say("light.remote-blocked"));
}
function begin_remote() {
  one('opening').hidden = one('late').hidden = true;
  go('remote');
  const buttons = [...one('remote').querySelectorAll('button')];
  const able = (is) => buttons.forEach((button) => { button.disabled = !is; });
  able(false);
  const silent = () => { one('remote-piece').textContent = say("light.remote-none"); able(false); };
  let waiting = 0;
  const send = (deed) => {
    clearTimeout(waiting);
    waiting = setTimeout(silent, 2000);
    if (channel) channel.postMessage({ to: token, do: deed, by: Number(one('remote-step').value) });
  };
  if (!channel) return silent();
  channel.onmessage = ({ data }) => {
    if (!data || data.from !== token) return;
    clearTimeout(waiting);
    able(data.showing === true);
    one('remote-coat').textContent = String(data.title).slice(0, 300);
    one('remote-piece').textContent = String(data.piece).slice(0, 300);
    for (const [value, is] of [['blank', data.blank], ['alone', data.alone]]) {
      one('remote').querySelector(`[value=${value}]`).setAttribute('aria-pressed', String(is === true));
    }
  };
  for (const button of buttons) button.addEventListener('click', () => send(button.value));
  send('hello');
  return undefined;
}
