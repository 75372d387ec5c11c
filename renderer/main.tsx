import { createRoot } from 'react-dom/client';
import { App } from './app/App.tsx';
import './ui/tokens.css';
import './ui/base.css';
import 'uplot/dist/uPlot.min.css';
import './register/home.css';
import './register/sign-in.css';
import './bench/bench.css';
import './bench/card.css';
import './rig-check/rig-check.css';
import './fault-finding/fault-finding.css';
import './review/review.css';
import './review/quality.css';
import './verdict/verdict.css';
import './verdict/compare.css';

const root = document.getElementById('root');
if (root === null) throw new Error('The page has no element with the id "root".');
createRoot(root).render(<App />);
