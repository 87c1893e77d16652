using System.Text.Json;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Whole numbers of JSON.</summary>
internal static class JsonIndex
{
    /// <summary>A whole number, false for anything else.</summary>
    public static bool TryIndex(this JsonElement value, out int index)
    {
        index = 0;
        return value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out index);
    }
}
