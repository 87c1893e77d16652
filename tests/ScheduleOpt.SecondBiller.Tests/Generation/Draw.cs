using System.Text.Json.Nodes;

namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>Seeded chance.</summary>
internal sealed class Draw(int seed)
{
    private readonly Random random = new(seed);

    public bool Chance(double probability) => random.NextDouble() < probability;

    /// <summary>Both ends included.</summary>
    public int Between(int least, int most) => random.Next(least, most + 1);

    public T Of<T>(params IReadOnlyList<T> items) => items[random.Next(items.Count)];

    public decimal Number(decimal least, decimal most, int decimals) =>
        Math.Round(least + (decimal)random.NextDouble() * (most - least), decimals);

    /// <summary>At least one of them, in their order.</summary>
    public string[] Some(IReadOnlyList<string> items)
    {
        var chosen = items.Where(_ => Chance(0.5)).ToArray();
        return chosen.Length > 0 ? chosen : [Of(items)];
    }

    /// <summary>The items in groups of random size that together hold each once.</summary>
    public List<string[]> Partition(IReadOnlyList<string> items)
    {
        var groups = items.GroupBy(_ => random.Next(items.Count)).Select(group => group.ToArray()).ToList();
        return groups;
    }

    public long NextLong(long most) => random.NextInt64(most + 1);

    public static JsonArray Array(IEnumerable<string> names) => new([.. names.Select(name => (JsonNode)JsonValue.Create(name)!)]);
}
