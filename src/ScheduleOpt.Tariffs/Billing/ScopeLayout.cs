using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>What of a billing period a charge covers.</summary>
internal sealed class ScopeLayout
{
    private const int Decimals = 12;
    private readonly Scope scope;
    private readonly bool[] covered;
    private readonly bool[] coveredDays;

    public ScopeLayout(PlanLayout plan, Scope scope)
    {
        this.scope = scope;
        Calendar = plan.CalendarOf(scope);
        coveredDays = new bool[Calendar.DayCells];
        covered = new bool[Calendar.Cells];
        for (var day = 0; day < coveredDays.Length; day++)
        {
            coveredDays[day] = Calendar.CoversDays(scope, day);
            for (var cell = day * Calendar.Periods; cell < (day + 1) * Calendar.Periods; cell++)
            {
                covered[cell] = coveredDays[day] && Calendar.CoversPeriod(scope, cell);
            }
        }

        Cells = [.. Enumerable.Range(0, covered.Length).Where(c => covered[c])];
    }

    public CalendarLayout Calendar { get; }

    /// <summary>The cells it covers, in order.</summary>
    public int[] Cells { get; }

    public bool Covers(int cell) => covered[cell];

    /// <summary>Days of the billing period in its seasons and dates; zero in another billing season. [days]</summary>
    public decimal Days(PeriodUse use)
    {
        if (!scope.CoversBillingSeason(use.BillingSeason))
        {
            return 0;
        }

        decimal days = 0;
        var all = use.Days[Calendar.Index];
        for (var i = 0; i < all.Length; i++)
        {
            days += coveredDays[i] ? all[i] : 0;
        }

        return days;
    }

    /// <summary>Whether it has covered days in the billing period.</summary>
    public bool IsIn(PeriodUse use) => Days(use) > 0;

    /// <summary>Whether it can cover use of the billing period. A window over midnight takes its season into a billing period that has no day of it, so
    /// that there may be use without days.</summary>
    public bool PricesUseOf(PeriodUse use) =>
        scope.CoversBillingSeason(use.BillingSeason) && (IsIn(use) || use.Spans[Calendar.Index].Exists(s => covered[Calendar.CellOf(s)]));

    /// <summary>The use that it covers. [1e-6 kWh]</summary>
    public long MicroKwh(PeriodUse use, bool export = false)
    {
        long sum = 0;
        var energy = (export ? use.Export : use.Import)[Calendar.Index];
        foreach (var cell in Cells)
        {
            sum += energy[cell];
        }

        return sum;
    }

    /// <summary>How many units of a billing period an amount is for.</summary>
    public decimal Units(PeriodUse use, ChargeUnit unit)
    {
        if (unit == ChargeUnit.BillingPeriod)
        {
            return 1;
        }

        var days = Days(use);
        return unit switch
        {
            ChargeUnit.Day => days,
            ChargeUnit.ThirtyDays => decimal.Round(days / 30, Decimals),
            ChargeUnit.Year => decimal.Round(Months(use, days) / 12, Decimals),
            _ => Months(use, days),
        };
    }

    private static decimal Months(PeriodUse use, decimal days) =>
        days == use.TotalDays ? use.Months : decimal.Round(use.Months * days / use.TotalDays, Decimals);
}
