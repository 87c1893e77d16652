namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>When the savings have returned what an alternative costs more at the start.</summary>
/// <param name="Outcome">Whether they do.</param>
/// <param name="Years">After how many years; none where they don't. [a]</param>
public sealed record Payback(PaybackOutcome Outcome, double? Years)
{
    /// <summary>Finds the first time at which cumulative savings less later costs equal the investment.</summary>
    /// <remarks>
    /// Simple payback, rate 0: 10 CFR 436.23, a rough measure only (436.18(d)). Discounted payback: NIST Handbook 135. Inside a year savings
    /// arrive evenly, discounted as the annuity with a fraction of a year: need = S * (1 + d)^-(t-1) * (1 - (1 + d)^-f) / d, so that equal
    /// savings give -ln(1 - d * I / S) / ln(1 + d) exactly. Replacements, salvage and late incentives fall at the end of their year.
    /// </remarks>
    internal static Payback Of(LifeCycleCost reference, LifeCycleCost alternative, DiscountRate? rate)
    {
        var d = (double)(rate?.Real ?? 0);
        var sum = (double)(reference.Years[0].Capital - alternative.Years[0].Capital);
        if (sum >= 0)
        {
            return new Payback(PaybackOutcome.NothingToPayBack, null);
        }

        double? paid = null;
        for (var t = 1; t < alternative.Years.Count; t++)
        {
            var factor = Math.Pow(1 + d, -t);
            var saving = (double)(reference.Years[t].Running - alternative.Years[t].Running);
            var lump = (double)(reference.Years[t].Capital - alternative.Years[t].Capital);
            var before = sum;
            sum += saving * factor;
            if (paid is null && sum >= 0)
            {
                paid = t - 1 + PartOfYear(-before, saving * factor * (1 + d), d);
            }

            sum += lump * factor;
            if (paid is null && sum >= 0)
            {
                paid = t;
            }
        }

        // A replacement after the payback may take the savings below the investment again: the measure alone would hide it.
        return paid is null ? new Payback(PaybackOutcome.NotInStudyPeriod, null)
            : new Payback(sum >= -1e-9 ? PaybackOutcome.PaidBack : PaybackOutcome.PaidBackThenLost, paid);
    }

    private static double PartOfYear(double need, double savingAtStart, double rate) =>
        Math.Abs(rate) < 1e-12 ? need / savingAtStart : -Math.Log(1 - (rate * need / savingAtStart)) / Math.Log(1 + rate);
}
