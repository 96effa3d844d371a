-- The figures of 2025 of the shop of ten years (ten_years.h), in cents, as one statement.
WITH
  piece (part_id, cost) AS (
    SELECT part_id, (price * quantity + freight + tax) / quantity
    FROM order_lines JOIN orders ON orders.id = order_id),
  spent (machine_id, date, cost) AS (
    SELECT machines.id, date, price + pickup_cost FROM machines JOIN acquisitions ON acquisitions.id = acquisition_id
    UNION ALL SELECT machine_id, date, quantity * cost FROM fitted JOIN piece USING (part_id)
    UNION ALL SELECT machine_id, date, cost FROM materials
    UNION ALL SELECT machine_id, date, cost FROM findings),
  move (machine_id, date, gone) AS (
    SELECT machine_id, date, 1 FROM sales
    UNION ALL SELECT machine_id, date, -1 FROM returns
    UNION ALL SELECT machine_id, date, 1 FROM disposals),
  state (machine_id, before, after) AS (
    SELECT machine_id, sum(gone * (date < '2025-01-01')), sum(gone * (date < '2026-01-01')) FROM move GROUP BY 1),
  cost (machine_id, before, after) AS (
    SELECT machine_id, sum(cost * (date < '2025-01-01')), sum(cost * (date < '2026-01-01')) FROM spent GROUP BY 1),
  machines_there (opening, closing) AS (
    SELECT sum(cost.before * (1 - coalesce(state.before, 0))), sum(cost.after * (1 - coalesce(state.after, 0)))
    FROM cost LEFT JOIN state USING (machine_id)),
  arrived (date, cost) AS (
    SELECT arrived, price * quantity + freight + tax FROM order_lines JOIN orders ON orders.id = order_id),
  parts_there (opening, closing) AS (
    SELECT (SELECT sum(cost) FROM arrived WHERE date < '2025-01-01')
        - (SELECT sum(quantity * cost) FROM fitted JOIN piece USING (part_id) WHERE date < '2025-01-01'),
      (SELECT sum(cost) FROM arrived WHERE date < '2026-01-01')
        - (SELECT sum(quantity * cost) FROM fitted JOIN piece USING (part_id) WHERE date < '2026-01-01')),
  year AS (
    SELECT
      (SELECT sum(price) FROM sales WHERE date BETWEEN '2025-01-01' AND '2025-12-31')
        + (SELECT sum(proceeds) FROM disposals WHERE date BETWEEN '2025-01-01' AND '2025-12-31') AS gross_receipts,
      (SELECT sum(refunded) FROM returns WHERE date BETWEEN '2025-01-01' AND '2025-12-31')
        + (SELECT sum(amount) FROM allowances WHERE date BETWEEN '2025-01-01' AND '2025-12-31') AS returns,
      machines_there.opening + parts_there.opening AS opening_inventory,
      (SELECT sum(price + pickup_cost) FROM acquisitions WHERE date BETWEEN '2025-01-01' AND '2025-12-31')
        + (SELECT sum(cost) FROM arrived WHERE date BETWEEN '2025-01-01' AND '2025-12-31') AS purchases,
      (SELECT sum(cost) FROM materials WHERE date BETWEEN '2025-01-01' AND '2025-12-31') AS materials,
      (SELECT sum(cost) FROM findings WHERE date BETWEEN '2025-01-01' AND '2025-12-31') AS other_costs,
      machines_there.closing + parts_there.closing AS closing_inventory,
      (SELECT sum(amount) FROM expenses WHERE date BETWEEN '2025-01-01' AND '2025-12-31')
        + (SELECT sum(fee + delivery) FROM sales WHERE date BETWEEN '2025-01-01' AND '2025-12-31') AS expenses,
      (SELECT sum((miles * 700 + 50) / 100) FROM trips WHERE date BETWEEN '2025-01-01' AND '2025-12-31')
        AS car_and_truck,
      (SELECT sum(sales_tax) FROM sales WHERE date < '2026-01-01')
        - (SELECT sum(sales_tax) FROM returns JOIN sales USING (machine_id) WHERE returns.date < '2026-01-01')
        - (SELECT sum(amount) FROM tax_paid WHERE date < '2026-01-01') AS sales_tax_owed,
      (SELECT sum(miles) FROM trips WHERE date BETWEEN '2025-01-01' AND '2025-12-31') AS miles,
      (SELECT count(*) FROM sales WHERE date BETWEEN '2025-01-01' AND '2025-12-31')
        - (SELECT count(*) FROM returns WHERE date BETWEEN '2025-01-01' AND '2025-12-31') AS machines_sold,
      (SELECT sum(minutes) FROM labour WHERE date BETWEEN '2025-01-01' AND '2025-12-31') AS minutes
    FROM machines_there, parts_there)
SELECT *, opening_inventory + purchases + materials + other_costs - closing_inventory AS cost_of_goods_sold FROM year;
