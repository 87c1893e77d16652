using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>A charge for power in one billing period.</summary>
/// <remarks>An average longer than the metering interval is held by holding each of its intervals: sufficient, and no dearer where they are alike.</remarks>
internal sealed class PeakCharge
{
    private readonly DemandTerm term;

    private PeakCharge(DemandTerm term, int period, PeakWindow[] windows, double freeKw) =>
        (this.term, Period, Windows, FreeKw) = (term, period, windows, freeKw);

    /// <summary>Index of the billing period.</summary>
    public int Period { get; }

    /// <summary>The averages that count.</summary>
    public PeakWindow[] Windows { get; }

    /// <summary>Power that is billed whatever the car does. [kW]</summary>
    public double FreeKw { get; }

    /// <summary>Power up to which nothing more is billed than without the car, however it is rounded. [kW]</summary>
    public double SurelyFreeKw { get; private init; }

    /// <summary>Of how many days the mean of the highest averages is billed; none where the highest of all is.</summary>
    public int? MeanOfDays => term.MeanOfDays;

    /// <summary>Whether averages overlap.</summary>
    public bool Overlap { get; private init; }

    /// <summary>Length of an average. [h]</summary>
    public double Hours { get; private init; }

    /// <summary>Name of the charge.</summary>
    public string Name => term.Name;

    /// <summary>Least billed power, by minimum and ratchet. [kW]</summary>
    public double FloorKw => (double)term.FloorKw;

    /// <summary>The charge of a term; none where it has no window or costs nothing.</summary>
    /// <param name="term">The term.</param>
    /// <param name="period">Index of its billing period.</param>
    /// <param name="house">What is on the meter without the car.</param>
    /// <param name="zone">Where days begin.</param>
    public static PeakCharge? Of(DemandTerm term, int period, MeteredSeries house, DateTimeZone zone)
    {
        var length = Math.Max(1, (int)Math.Round(term.Averaging / house.Interval));
        var windows = new List<PeakWindow>();
        var last = MeterSpan.IndexOf(term.BillingPeriod.HasEnd ? term.BillingPeriod.End : house.End, house);
        foreach (var span in MeterSpan.Of(term.Hours, house))
        {
            // Longer averages are aligned with the clock unless they slide.
            var step = term.Sliding ? 1 : length;
            for (var m = term.Sliding ? span.From : FirstAligned(span.From, length, house); m < span.Until && m + length <= last; m += step)
            {
                var day = term.MeanOfDays is null ? 0 : (house.Start + (house.Interval * m)).InZone(zone).DayOfYear;
                windows.Add(new PeakWindow(m, m + length, HouseKw(m, m + length, house), day));
            }
        }

        return windows.Count == 0 || term.Blocks.All(b => b.PricePerKw == 0)
            ? null
            : new PeakCharge(term, period, [.. windows], (double)Math.Max(term.MeasuredKw, term.FloorKw)) 
            {
                Hours = length * house.Interval.TotalHours, Overlap = term.Sliding && length > 1, SurelyFreeKw = (double)(term.BilledKw + term.RoundedAwayKw),
            };
    }

    /// <summary>What one more kW costs. [currency/kW]</summary>
    public double PriceAt(double kw)
    {
        foreach (var block in term.Blocks)
        {
            if (block.UpToKw is not { } limit || kw < (double)limit)
            {
                return (double)block.PricePerKw;
            }
        }

        return 0;
    }

    /// <summary>Where one block of kW ends and the next begins. [kW]</summary>
    public IEnumerable<double> EdgesKw => term.Blocks.Where(b => b.UpToKw is not null).Select(b => (double)b.UpToKw!.Value);

    /// <summary>What a peak costs above what is billed whatever the car does. [currency]</summary>
    public double Cost(double kw) => Between(FreeKw, kw);

    /// <summary>What it costs at least above what is billed without the car, however it is rounded. [currency]</summary>
    public double LeastCost(double kw) => Between((double)term.BilledKw, kw - (double)term.RoundedAwayKw);

    /// <summary>Powers at which the least cost changes its slope. [kW]</summary>
    public IEnumerable<double> LeastEdgesKw => EdgesKw.Select(kw => kw + (double)term.RoundedAwayKw);

    private double Between(double freeKw, double kw)
    {
        var (cost, from) = (0.0, freeKw);
        foreach (var block in term.Blocks)
        {
            var until = Math.Min(kw, (double?)block.UpToKw ?? double.PositiveInfinity);
            if (until > from)
            {
                cost += (until - from) * (double)block.PricePerKw;
                from = until;
            }
        }

        return cost;
    }

    private static double HouseKw(int from, int until, MeteredSeries house)
    {
        var sum = 0L;
        for (var m = from; m < until; m++)
        {
            sum += house.MicroKilowattHours[m];
        }

        return sum / (double)MeteredSeries.UnitsPerKilowattHour / ((until - from) * house.Interval.TotalHours);
    }

    private static int FirstAligned(int from, int length, MeteredSeries house)
    {
        var step = house.Interval.BclCompatibleTicks / NodaConstants.TicksPerSecond;
        var second = house.Start.ToUnixTimeSeconds() + (from * step);
        var rest = second % (step * length);
        return rest == 0 ? from : from + (int)(((step * length) - rest) / step);
    }
}

/// <summary>One average of power.</summary>
/// <param name="From">Its first metering interval.</param>
/// <param name="Until">The one after its last.</param>
/// <param name="HouseKw">What the house takes in it on average. [kW]</param>
/// <param name="Day">The day on which it begins, where days matter.</param>
internal readonly record struct PeakWindow(int From, int Until, double HouseKw, int Day);
