import { useMemo, useState } from 'react';
import { type CostLine, type RunUse, runCost } from '../../sim-core/index.ts';
import { PricesDialog } from '../app/PricesDialog.tsx';
import { useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { money } from '../ui/money.ts';
import { percentOf, significantText } from '../ui/number-text.ts';

/** Digits of an amount that count. */
const DIGITS = 3;

function amountWords(line: CostLine): string {
  switch (line.unit) {
    case 'share':
      return say('cost.share', { percent: percentOf(significantText(line.amount * 100, DIGITS)) });
    case 'kg':
      return `${significantText(line.amount, DIGITS)}\u00a0kg`;
    case 'm3':
      return `${significantText(line.amount, DIGITS)}\u00a0m³`;
    case 'min':
      return `${significantText(line.amount, DIGITS)}\u00a0min`;
  }
}

/** What the run would have cost in a shop, line by line, at the prices of the settings. */
export function CostPanel({ use }: { use: RunUse }) {
  const prices = useYard((state) => state.settings.prices);
  const [pricing, setPricing] = useState(false);
  const bill = useMemo(() => runCost(use, prices), [use, prices]);
  return (
    <div className="cost" data-total={bill.total.toFixed(4)}>
      <table className="cost-table">
        <caption>{say('cost.caption')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('cost.what')}</th>
            <th scope="col">{say('cost.used')}</th>
            <th scope="col">{say('cost.costs')}</th>
          </tr>
        </thead>
        <tbody>
          {bill.lines.map((line) => (
            <tr key={line.id} data-line={line.id}>
              <th scope="row">{say(`cost.line.${line.id}`)}</th>
              <td>{amountWords(line)}</td>
              <td>{money(line.cost, prices.currency)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row" colSpan={2}>
              {say('cost.total')}
            </th>
            <td>{money(bill.total, prices.currency)}</td>
          </tr>
        </tfoot>
      </table>
      <p className="small soft">{say('cost.about')}</p>
      <Action onPress={() => setPricing(true)}>{say('prices.open')}</Action>
      <PricesDialog isOpen={pricing} onOpenChange={setPricing} />
    </div>
  );
}
