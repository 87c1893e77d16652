using System.Globalization;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Service.Health;

/// <summary>Whether the rate plans that come with the program can be read.</summary>
internal sealed class RatePlansCheck : IReadinessCheck
{
    /// <inheritdoc/>
    public string Name => "ratePlans";

    /// <inheritdoc/>
    public string Check()
    {
        try
        {
            var count = RatePlanLibrary.All.Count;
            return count > 0
                ? count.ToString(CultureInfo.InvariantCulture)
                : throw new NotReadyException("There is no rate plan.");
        }
        catch (InvalidOperationException e)
        {
            throw new NotReadyException($"The rate plans can't be read: {e.Message}", e);
        }
    }
}
