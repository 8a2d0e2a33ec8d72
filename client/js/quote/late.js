// The look of what comes with a module of its own: each such module imports this one, so it is asked for once. Nothing
// is shown before its look is there; where that does not come, all can be read and used without it.
import {el} from '../shared/dom.js';

const look = el('link', {rel: 'stylesheet', href: 'late.css'});
await new Promise((resolve) => {
  look.addEventListener('load', resolve);
  look.addEventListener('error', resolve);
  document.head.append(look);
});
