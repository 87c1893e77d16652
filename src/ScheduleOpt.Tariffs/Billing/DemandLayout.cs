using NodaTime;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>A demand charge with the use that it covers: finds the power that it measures, and what it costs.</summary>
internal sealed class DemandLayout
{
    private const int Decimals = 12, KwDecimals = 6;

    public DemandLayout(PlanLayout layout, DemandCharge charge) => (Charge, Scope) = (charge, new(layout, charge));

    public DemandCharge Charge { get; }

    public ScopeLayout Scope { get; }

    /// <summary>Length of an average. [s]</summary>
    public long Step(MeteredSeries series) => Math.Max(Charge.AveragingMinutes * 60L, series.IntervalSeconds);

    /// <summary>The measured power of a billing period. [kW]</summary>
    public decimal Measured(PeriodUse use)
    {
        if (use.Billed is null)
        {
            return 0;
        }

        var series = use.Billed.Metered;
        if (Charge.MeanOfDailyHighest)
        {
            return MeanOfDailyHighest(use, series);
        }

        long highest = 0;
        foreach (var run in Runs(use, series))
        {
            highest = Math.Max(highest, run.Highest(series));
        }

        return Kw(highest, Step(series));
    }

    /// <summary>Start and energy of each average that counts. [s, 1e-6 kWh]</summary>
    public IEnumerable<(long Start, long Energy)> Averages(PeriodUse use, MeteredSeries series)
    {
        foreach (var run in Runs(use, series))
        {
            for (var i = 0; i < run.Count; i++)
            {
                yield return (run.Start + (i * run.Stride), run.Energy(series, i));
            }
        }
    }

    private IEnumerable<AverageRun> Runs(PeriodUse use, MeteredSeries series)
    {
        long interval = series.IntervalSeconds, step = Step(series);
        var begin = series.StartSecond;
        var from = Math.Max(use.Period.Start.ToUnixTimeSeconds(), begin);
        var until = Math.Min(use.Period.End.ToUnixTimeSeconds(), series.EndSecond);
        // Averages over several intervals are aligned with the clock; single intervals, and sliding averages, begin where the series has them begin.
        var own = Charge.Sliding || step <= interval;
        var stride = own ? Math.Min(interval, step) : step;
        foreach (var span in use.Spans[Scope.Calendar.Index])
        {
            if (!Scope.Covers(Scope.Calendar.CellOf(span)))
            {
                continue;
            }

            var start = FirstAtOrAfter(Math.Max(span.StartSecond, from), stride, own ? begin % stride : 0);
            var count = start < span.EndSecond && start + step <= until
                ? Math.Min(((span.EndSecond - 1 - start) / stride) + 1, ((until - step - start) / stride) + 1)
                : 0;
            if (count > 0)
            {
                yield return new(start, (int)count, stride, step);
            }
        }
    }

    /// <summary>The most by which rounding bills less than the power. [kW]</summary>
    public decimal RoundedAwayKw
    {
        get
        {
            if (Charge.KwDecimals >= KwDecimals)
            {
                return 0;
            }

            var step = 1m;
            for (var i = 0; i < Charge.KwDecimals; i++)
            {
                step /= 10;
            }

            return Charge.KwRounding switch
            {
                KwRounding.Up => 0,
                KwRounding.Down => step,
                _ => step / 2,
            };
        }
    }

    /// <summary>Billed power. [kW]</summary>
    /// <param name="measured">Measured power. [kW]</param>
    /// <param name="earlier">Highest power that the ratchet looks at. [kW]</param>
    public decimal Billed(decimal measured, decimal earlier)
    {
        var kw = Math.Max(Math.Max(measured, Charge.MinimumKw), Floor(earlier));
        var scale = 1m;
        for (var i = 0; i < Charge.KwDecimals; i++)
        {
            scale *= 10;
        }

        return Charge.KwRounding switch
        {
            KwRounding.Up => decimal.Ceiling(kw * scale) / scale,
            KwRounding.Down => decimal.Floor(kw * scale) / scale,
            _ => decimal.Round(kw, Charge.KwDecimals, MidpointRounding.AwayFromZero),
        };
    }

    /// <summary>The least power that the ratchet bills. [kW]</summary>
    public decimal Floor(decimal earlier) => Charge.Ratchet is { } ratchet ? ratchet.Percent / 100 * earlier : 0;

    /// <summary>What prices are multiplied by in a billing period.</summary>
    public decimal Factor(PeriodUse use) => decimal.Round(Scope.Units(use, Charge.Per), Decimals);

    public IEnumerable<BillLine> Lines(PeriodUse use, decimal billedKw, Rounding rounding)
    {
        var factor = Factor(use);
        decimal below = 0;
        for (var i = 0; i < Charge.Blocks.Count; i++)
        {
            var (limit, price) = (Charge.Blocks[i].UpToKw ?? decimal.MaxValue, Charge.Blocks[i].PricePerKw * factor);
            var kw = Math.Min(billedKw, limit) - below;
            if (kw > 0 || Charge.Blocks.Count == 1)
            {
                var name = Charge.Blocks.Count == 1 ? Charge.Name : $"{Charge.Name}, block {i + 1}";
                yield return new(BillPart.DemandCharge, name, kw, "kW", price, rounding.Line(kw * price))
                {
                    Charge = Charge.Name,
                    Place = Charge.Place,
                    Rule = Words(),
                };
                below = Math.Min(billedKw, limit);
            }
        }
    }

    private string Words() =>
        (Charge.MeanOfDailyHighest ? "mean of the days' highest averages" : "highest average")
        + FormattableString.Invariant($" over {Charge.AveragingMinutes} minutes{(Charge.Sliding ? ", sliding" : "")}")
        + (Charge.Ratchet is { } r ? FormattableString.Invariant($", at least {r.Percent} % of earlier demand") : "")
        + (Charge.MinimumKw > 0 ? FormattableString.Invariant($", at least {Charge.MinimumKw} kW") : "");

    private decimal MeanOfDailyHighest(PeriodUse use, MeteredSeries series)
    {
        var highest = new List<long>(32);
        var dayEnd = long.MinValue;
        foreach (var run in Runs(use, series))
        {
            for (var rest = run; rest.Count > 0;)
            {
                if (rest.Start >= dayEnd)
                {
                    highest.Add(0);
                    dayEnd = Scope.Calendar.Walk.EndOfDay(rest.Start);
                }

                (var ofDay, rest) = rest.SplitAt(dayEnd);
                highest[^1] = Math.Max(highest[^1], ofDay.Highest(series));
            }
        }

        var days = highest.OrderDescending().Take(Charge.HighestDays ?? int.MaxValue).ToArray();
        return days.Length == 0 ? 0 : decimal.Round(days.Sum(e => Kw(e, Step(series))) / days.Length, KwDecimals, MidpointRounding.AwayFromZero);
    }

    internal static decimal Kw(long energy, long seconds) =>
        decimal.Round(energy / (decimal)MeteredSeries.UnitsPerKilowattHour * NodaConstants.SecondsPerHour / seconds, KwDecimals, MidpointRounding.AwayFromZero);

    private static long FirstAtOrAfter(long second, long step, long aligned)
    {
        var offset = (second - aligned) % step;
        return offset == 0 ? second : second + step - (offset < 0 ? offset + step : offset);
    }
}
