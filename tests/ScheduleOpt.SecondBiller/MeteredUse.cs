using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>One metering interval after netting, or the part of one that lies in a billing period.</summary>
internal sealed record Metered(Instant Start, Instant End, long Import, long Export)
{
    /// <summary>"Of an interval of n seconds with energy e, the first k seconds hold floor(e x k / n) millionths, and what lies between two borders is the
    /// difference of two such numbers."</summary>
    public long ImportBetween(Instant from, Instant to) => Held(Import, to) - Held(Import, from);

    public long ExportBetween(Instant from, Instant to) => Held(Export, to) - Held(Export, from);

    private long Held(long energy, Instant until) =>
        Rounded.Share(energy, (Instant.Max(Start, Instant.Min(until, End)) - Start).BclCompatibleTicks, (End - Start).BclCompatibleTicks);
}

/// <summary>Import and export, steps 1 and 2.</summary>
internal static class Netting
{
    public static List<Metered> Net(Context context)
    {
        var question = context.Question;
        var export = context.Plan.Child("export");
        var result = new List<Metered>();
        for (var index = 0; index < question.Import.Length; index++)
        {
            var start = question.Start + question.Interval * index;
            // "Without `export` the import is taken as metered, and exported energy is not looked at".
            result.Add(new(start, start + question.Interval, question.Import[index], export is null ? 0 : question.Export?[index] ?? 0));
        }

        var minutes = export?.Integer("nettingMinutes");
        if (export is null || minutes == 0)
        {
            // "With 0: no netting."
            return result;
        }

        if (minutes is null || question.Interval > Duration.FromMinutes(minutes.Value))
        {
            // "Without `nettingMinutes` in each metering interval: the smaller of the two is taken off both." "A metering interval that is longer stays itself."
            return [.. result.Select(item => item with
            {
                Import = item.Import - Math.Min(item.Import, item.Export),
                Export = item.Export - Math.Min(item.Import, item.Export),
            })];
        }

        // "intervals whose start falls into the same stretch of so many minutes since 1970-01-01T00:00Z belong together"
        var stretch = minutes.Value * NodaConstants.TicksPerMinute;
        return [.. result.GroupBy(item => item.Start.ToUnixTimeTicks() / stretch).SelectMany(group => Shared([.. group]))];
    }

    private static IEnumerable<Metered> Shared(Metered[] together)
    {
        var net = together.Sum(item => item.Import) - together.Sum(item => item.Export);
        var size = Math.Abs(net);
        for (var j = 0; j < together.Length; j++)
        {
            // "interval j (from 0) of m gets floor(N x (j + 1) / m) - floor(N x j / m), as import where net is positive and as export where it is negative"
            var share = Rounded.Share(size, j + 1, together.Length) - Rounded.Share(size, j, together.Length);
            yield return together[j] with { Import = net > 0 ? share : 0, Export = net < 0 ? share : 0 };
        }
    }
}
