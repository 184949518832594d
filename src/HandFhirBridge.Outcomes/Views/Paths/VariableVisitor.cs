using Hl7.FhirPath.Expressions;

namespace HandFhirBridge.Outcomes.Views.Paths;

/// <summary>Collects the variables an expression refers to (<c>%name</c>) and those it defines itself. The SDK misses an unknown one only when it comes to evaluate it.</summary>
internal sealed class VariableVisitor : ExpressionVisitor<bool>
{
    private readonly HashSet<string> referred = [];
    private readonly HashSet<string> defined = [];

    public IReadOnlySet<string> Referred => referred;

    public IReadOnlySet<string> Defined => defined;

    public override bool VisitConstant(ConstantExpression expression) => true;

    public override bool VisitFunctionCall(FunctionCallExpression expression)
    {
        if (expression.FunctionName == "defineVariable" && expression.Arguments.FirstOrDefault() is ConstantExpression { Value: string name })
        {
            defined.Add(name);
        }

        expression.Focus?.Accept(this);
        return All(expression.Arguments);
    }

    public override bool VisitNewNodeListInit(NewNodeListInitExpression expression) => All(expression.Contents);

    public override bool VisitVariableRef(VariableRefExpression expression)
    {
        if (expression is not AxisExpression) // $this, $index, $total
        {
            referred.Add(expression.Name);
        }

        return true;
    }

    public override bool VisitCustomExpression(CustomExpression expression) => expression.Reduce().Accept(this);

    private bool All(IEnumerable<Expression> expressions)
    {
        foreach (var expression in expressions)
        {
            expression.Accept(this);
        }

        return true;
    }
}
