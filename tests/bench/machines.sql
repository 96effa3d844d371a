-- The figures of every machine of the shop of ten years (ten_years.h), in cents, as one statement.
WITH
  rate (first, last, tenths) AS (VALUES
    ('2018-01-01', '2018-12-31', 545), ('2019-01-01', '2019-12-31', 580), ('2020-01-01', '2020-12-31', 575),
    ('2021-01-01', '2021-12-31', 560), ('2022-01-01', '2022-06-30', 585), ('2022-07-01', '2022-12-31', 625),
    ('2023-01-01', '2023-12-31', 655), ('2024-01-01', '2024-12-31', 670), ('2025-01-01', '2025-12-31', 700)),
  drive (machine_id, year, cost) AS (
    SELECT machine_id, substr(date, 1, 4), (miles * tenths + 50) / 100
    FROM trips JOIN rate ON date BETWEEN first AND last),
  piece (part_id, cost) AS (
    SELECT part_id, (price * quantity + freight + tax) / quantity
    FROM order_lines JOIN orders ON orders.id = order_id),
  work (machine_id, year, minutes) AS (
    SELECT machine_id, substr(date, 1, 4), sum(minutes) FROM labour GROUP BY 1, 2),
  overhead (year, cost) AS (
    SELECT year, sum(cost)
    FROM (SELECT substr(date, 1, 4) AS year, amount AS cost FROM expenses
          UNION ALL SELECT year, cost FROM drive WHERE machine_id IS NULL)
    GROUP BY 1),
  total (year, minutes) AS (SELECT year, sum(minutes) FROM work GROUP BY 1),
  line (machine_id, cost, proceeds, running, minutes, gone) AS (
    SELECT machines.id, price + pickup_cost, 0, 0, 0, 0
    FROM machines JOIN acquisitions ON acquisitions.id = acquisition_id
    UNION ALL SELECT machine_id, quantity * cost, 0, 0, 0, 0 FROM fitted JOIN piece USING (part_id)
    UNION ALL SELECT machine_id, cost, 0, 0, 0, 0 FROM materials
    UNION ALL SELECT machine_id, cost, 0, 0, 0, 0 FROM findings
    UNION ALL SELECT machine_id, 0, price - fee - delivery, 0, 0, 1 FROM sales
    UNION ALL SELECT machine_id, 0, -refunded, 0, 0, -1 FROM returns
    UNION ALL SELECT machine_id, 0, -amount, 0, 0, 0 FROM allowances
    UNION ALL SELECT machine_id, 0, proceeds, 0, 0, 1 FROM disposals
    UNION ALL SELECT machine_id, 0, 0, cost, 0, 0 FROM drive WHERE machine_id IS NOT NULL
    UNION ALL SELECT machine_id, 0, 0, coalesce(cost, 0) * work.minutes / total.minutes, work.minutes, 0
    FROM work JOIN total USING (year) LEFT JOIN overhead USING (year)),
  figures AS (
    SELECT machine_id, sum(cost) AS cost, sum(proceeds) AS proceeds, sum(running) AS running, sum(minutes) AS minutes,
      sum(gone) AS gone
    FROM line GROUP BY 1)
SELECT tag, cost, iif(gone, proceeds, NULL), running, iif(gone, proceeds - cost - running, NULL), minutes
FROM figures JOIN machines ON machines.id = machine_id
ORDER BY tag;
