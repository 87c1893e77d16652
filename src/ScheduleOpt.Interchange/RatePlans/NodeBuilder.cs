namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Builds nodes from a stream of beginnings, keys, scalars and ends, within the limits of a document.</summary>
internal sealed class NodeBuilder
{
    private readonly Stack<(DocumentNode Node, HashSet<string> Keys)> open = new();
    private readonly List<string> path = [];
    private string? key;
    private int nodes;

    public DocumentNode? Root { get; private set; }

    /// <summary>Whether the next scalar is the key of an object's member.</summary>
    public bool ExpectsKey => open.Count > 0 && open.Peek().Node.Kind == NodeKind.Object && key is null;

    public bool IsComplete => Root is not null && open.Count == 0;

    public void Begin(NodeKind kind, int line)
    {
        var node = new DocumentNode(kind, line);
        Add(node);
        if (open.Count >= DocumentLimits.Depth)
        {
            throw Refused("A rate-plan document must not be nested deeper than 32 levels.", "", line);
        }

        open.Push((node, new HashSet<string>(StringComparer.Ordinal)));
    }

    public void Key(string name, int line)
    {
        if (!open.Peek().Keys.Add(name))
        {
            throw Refused("A field must be given once.", name, line);
        }

        key = name;
        path.Add(name);
    }

    public void Scalar(NodeKind kind, string text, int line)
    {
        Add(new(kind, line, text));
        Leave();
    }

    public void End()
    {
        open.Pop();
        Leave();
    }

    public DocumentRefusedException Refused(string rule, string value, int line) =>
        new(new(Pointer.Of(path), rule, value.Length <= 60 ? value : value[..57] + "...", line));

    private void Add(DocumentNode node)
    {
        if (++nodes > DocumentLimits.Nodes)
        {
            throw Refused("A rate-plan document must not have more than 20,000 values.", "", node.Line);
        }

        if (open.Count == 0)
        {
            Root = node;
        }
        else if (open.Peek().Node is { Kind: NodeKind.Object } parent)
        {
            parent.Members.Add(new(key!, node));
            key = null;
        }
        else
        {
            path.Add(open.Peek().Node.Elements.Count.ToString(System.Globalization.CultureInfo.InvariantCulture));
            open.Peek().Node.Elements.Add(node);
        }
    }

    private void Leave()
    {
        if (path.Count > 0)
        {
            path.RemoveAt(path.Count - 1);
        }
    }
}
