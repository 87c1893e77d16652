using NodaTime;

namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>Estimates from metered demand whether an existing service has room for a charging unit.</summary>
public static class MeteredDemandCheck
{
    /// <summary>The rule.</summary>
    /// <remarks>That the new load counts 125 % is the cautious reading: the section itself adds the new load.</remarks>
    public const string Method =
        "NFPA 70 (NEC), 220.87: 125 % of the highest 15-minute average demand of a year, plus the charging unit (at least 7,200 VA, 220.57) at 125 %, "
        + "against the rating of the service";

    private const double DemandFactor = 1.25;
    private const double LeastCoverage = 0.99;
    private static readonly Duration Year = Duration.FromDays(365);
    private static readonly Duration Month = Duration.FromDays(30);

    /// <summary>Makes the estimate, or says why the record can't decide.</summary>
    public static PanelEstimate Of(ElectricalService service, DemandRecord record, ChargingLoad load)
    {
        ArgumentNullException.ThrowIfNull(service);
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(load);
        var refused = Refusals(record).ToArray();
        if (refused.Length > 0)
        {
            return PanelEstimate.Undecided(service, Method, refused);
        }

        var isShort = record.Length < Year;
        var peakKva = (record.HighestQuarterHourKw!.Value / record.PowerFactor) + (isShort ? record.Short!.SeasonalKva!.Value : 0);
        return PanelEstimate.Of(service, Method, DemandFactor * peakKva, load, ChargingLoad.ContinuousFactor, [.. Notes(record, isShort)]);
    }

    private static IEnumerable<string> Refusals(DemandRecord record)
    {
        if (record.HasGeneration || record.AverageKw.Any(k => k < 0))
        {
            yield return "Generation is behind the meter: it hides what the house draws, and 220.87 excludes it.";
        }

        if (record.HasStorage)
        {
            yield return "Storage is behind the meter: it hides what the house draws, as peak limiting does, which 220.87 excludes.";
        }

        if (record.HasPeakLimiting)
        {
            yield return "Peaks are limited behind the meter: the record shows the limit and not the load, and 220.87 excludes it.";
        }

        if (record.Interval > Duration.FromMinutes(15))
        {
            yield return FormattableString.Invariant(
                $"Averages over {record.Interval.TotalMinutes:0} minutes can't decide: a quarter hour inside may lie far above. ")
                + "15-minute data is needed; the utility may have it.";
        }
        else if (record.HighestQuarterHourKw is null)
        {
            yield return "The record holds no whole quarter hour with a value in each of its intervals.";
        }

        if (record.AverageKw.Any(k => k is { } value && !double.IsFinite(value)) || record.PowerFactor is not (>= 0.8 and <= 1))
        {
            yield return "Every value must be finite and the power factor 0.8 to 1.";
        }

        if (record.Coverage < LeastCoverage)
        {
            yield return FormattableString.Invariant(
                $"The record has values for {record.Coverage:P1} of its intervals; below 99 % (our rule) a peak may be missing.");
        }

        foreach (var reason in record.Length >= Year ? [] : ShortRefusals(record))
        {
            yield return reason;
        }
    }

    private static IEnumerable<string> ShortRefusals(DemandRecord record)
    {
        if (record.Length < Month)
        {
            yield return "A record of less than 30 days can't decide.";
        }

        if (record.Short is not { } conditions)
        {
            yield return "A record of less than a year counts only under conditions, and none are stated.";
            yield break;
        }

        if (!conditions.WasOccupied || !conditions.IsHighestLoadedLeg)
        {
            yield return "A record of less than a year must be taken on the highest loaded leg while the dwelling is occupied.";
        }

        if (conditions.SeasonalKva is not (>= 0 and <= 1000))
        {
            yield return "A record of less than a year must hold the larger of heating and cooling and other seasonal loads, or state what to add.";
        }
    }

    private static IEnumerable<string> Notes(DemandRecord record, bool isShort)
    {
        if (isShort)
        {
            yield return "A record of less than a year: estimated by the exception for 30 days, under the conditions that were stated.";
        }

        if (record.PowerFactor == 1)
        {
            yield return "A power factor of 1 is assumed: kVA as the meter's kW.";
        }

        yield return "The two legs of the service are taken as equally loaded, and its overload protection as in order: an electrician looks at both.";
    }
}
